"""Where the seasons of a club's squads are: in files of the club, or in season folders."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from cli.files.club_file import Club, SquadPart
from cli.files.errors import InputError
from cli.season.commit import open_folder
from cli.season.folder import SCENARIO, Folder, folder_of
from cli.season.history import State


@dataclass(frozen=True)
class SquadFiles:
    """The files of one squad.

    Parameters
    ----------
    plan
        As the club's file names it.
    folder
        The season folder whose plan in force it is, which keeps its history; None where the plan is
        the club's own file.
    seen
        What stood in that folder when it was read.
    """

    scenario: Path
    plan: Path
    folder: Folder | None
    seen: State


def squad_files(club_file: Path, club: Club) -> Iterator[SquadFiles]:
    """Yield the files of a club's squads; season folders are opened as by every command.

    Raises
    ------
    InputError
        If a squad has no plan.
    """
    for number, part in enumerate(club.squads, 1):
        yield _files(club_file, number, part)


def _files(club_file: Path, number: int, part: SquadPart) -> SquadFiles:
    named = club_file.parent / part.scenario
    folder = Folder(named) if named.is_dir() else folder_of(named)
    if folder is not None:
        open_folder(folder.path)  # ends a write that was broken off
    if part.plan:
        plan = club_file.parent / part.plan
    elif folder is not None and folder.plan.exists():
        plan = folder.plan
    else:
        raise _without_plan(club_file, number, part, folder)
    scenario = folder.scenario if folder is not None else named
    owner = folder if folder is not None and _same(plan, folder.plan) else None
    return SquadFiles(scenario, plan, owner, owner.now() if owner else {})


def _same(one: Path, other: Path) -> bool:
    return one.exists() and other.exists() and one.samefile(other)


def _without_plan(
    club_file: Path, number: int, part: SquadPart, folder: Folder | None
) -> InputError:
    where, must = f"squads[{number}].plan", "must name the plan of a squad without one in force"
    season = folder.path if folder is not None else club_file.parent / part.scenario
    do = f"make one with `plan {season}`"
    if folder is None:
        do = f"name its file, or a season folder (with {SCENARIO}) in scenario"
    return InputError(club_file, where, must, f"none for {part.name}", do)
