"""Who is set against which plan: the squad, each group that has a plan, and their athletes."""

from collections.abc import Sequence
from dataclasses import dataclass

from cli.files.scenario_file import Loaded
from cli.season.argument import today
from cli.season.by_group import athletes_by_group, by_athlete, group_of
from cli.season.done_csv import read_done
from cli.season.folder import folder_of
from cli.season.group_plans import groups_in_progress
from cli.season.progress import SeasonToday, full_sets, in_progress
from optimiser.domain.group import Group
from optimiser.domain.season import Season
from optimiser.progress.against import Against, against, athlete_against
from optimiser.progress.done_session import SQUAD, DoneSession
from optimiser.progress.recorded import athlete_records, member_records, names
from optimiser.rule import Rule


@dataclass(frozen=True)
class DoneAgainstPlan:
    """What somebody did against the plan they live by.

    Parameters
    ----------
    who
        The squad, a group, or an athlete.
    there
        The season of that plan, on the day it is.
    records
        That it is worked out from.
    """

    who: str
    there: SeasonToday
    found: Against
    records: tuple[DoneSession, ...]

    @property
    def season(self) -> Season:
        """Return the season as it was planned, by the name of the whole squad's."""
        season, calendar = self.there.as_planned, self.there.loaded.calendar
        return season if calendar is None else season.model_copy(update={"name": calendar.name})


def standing(loaded: Loaded, rules: Sequence[Rule]) -> list[DoneAgainstPlan]:
    """Return how the squad and each group stand, as far as they have a plan in force.

    Raises
    ------
    InputError
        If a plan or what was done cannot be read.
    """
    squad = in_progress(loaded, rules)
    plans = {} if squad is None else {SQUAD: squad}
    # the squad may be one of its own groups, with a plan as such
    plans |= groups_in_progress(loaded, rules)
    return [
        DoneAgainstPlan(
            who, there, against(there.as_planned, there.planned, there.lived), there.sessions
        )
        for who, there in plans.items()
    ]


def recorded_names(loaded: Loaded) -> list[str]:
    """Return the athletes who have records of their own, or of their group."""
    return names(by_athlete(loaded, _sessions(loaded)))


def of_athlete(loaded: Loaded, stands: Sequence[DoneAgainstPlan], name: str) -> DoneAgainstPlan:
    """Return how one athlete stands, against the plan of their group if it has one."""
    plans = {each.who: each.there for each in stands}
    group = group_of(loaded).get(name.casefold(), "")
    there = plans.get(group) or plans.get(SQUAD) or stands[0].there
    sessions = _sessions(loaded)
    if there.loaded.group:
        athletes = athletes_by_group(loaded).get(there.loaded.group, ())
        share = loaded.scenario.groups[Group(there.loaded.group)].match_share
        own = member_records(sessions, name, there.loaded.group, athletes, share)
    else:
        own = athlete_records(by_athlete(loaded, sessions), name, len(group_of(loaded)))
    season, sets = there.as_planned, full_sets(loaded)
    found = athlete_against(season, there.planned, own, today(), sets)
    return DoneAgainstPlan(name, there, found, tuple(own))


def _sessions(loaded: Loaded) -> list[DoneSession]:
    folder = folder_of(loaded.path)
    return [] if folder is None else read_done(folder.done, loaded.season, today())
