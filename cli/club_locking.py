"""A club's week kept in the folders of its squads, whose own pages then say the same."""

from collections.abc import Iterator, Sequence

from cli.club import ClubMember, ClubWeek, PlannedSquad, squad_plan
from cli.days import asked_of
from cli.season.commit import Action, commit
from cli.season.day_demands import locked
from cli.season.days_csv import written
from cli.season.folder import DAYS, Folder, folder_of
from optimiser.domain.week_number import number_of

ALONE = "stands alone: only a season folder keeps days"
OVER = "that week has begun to be recorded, or is over"


def lock_week(
    members: Sequence[ClubMember], squads: Sequence[PlannedSquad], week: ClubWeek
) -> Iterator[str]:
    """Hold every squad to its days and hours of a week, and yield what was done for each.

    They stand in the days.csv of its season folder, as `week --lock --save` writes them.

    Raises
    ------
    ChangedMeanwhileError
        If somebody has written into such a file since it was read.
    """
    for at in week.there:
        member, name = members[at], squads[at].name
        folder = folder_of(member.files.scenario)
        index = squads[at].index(week.monday) or 0
        if folder is None or index < member.there.lived.weeks:
            yield f"Not kept for {name}: {ALONE if folder is None else OVER}."
        else:
            _keep(folder, member, index, squads, week, at)
            yield f"Kept for {name} in {folder.days}; `undo {folder.path}` takes it back."


def _keep(
    folder: Folder,
    member: ClubMember,
    index: int,
    squads: Sequence[PlannedSquad],
    week: ClubWeek,
    at: int,
) -> None:
    loaded = member.there.loaded
    stands = folder.now([DAYS])
    asked = {**asked_of(loaded), index: tuple(locked(squad_plan(squads, week, at)))}
    text = written(asked, loaded.season)
    action = Action("club", f"week {number_of(index)} as the club has it")
    commit(folder, action, {DAYS: text.encode("utf-8")}, stands)
