"""What holds each athlete this week: stages that were entered, and how work begins again."""

import datetime as dt
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path

from cli.files.availability_file import USUAL, read_availability
from cli.files.logged_sets import check_logged
from cli.files.minutes_file import USUAL as MINUTES
from cli.files.minutes_file import Played, read_minutes
from cli.files.scenario_file import Loaded
from cli.files.tests_file import USUAL as TESTS
from cli.files.tests_file import of_qualities, read_measured
from cli.season.argument import today
from cli.season.done_csv import read_done
from cli.season.folder import folder_of
from constraints.reentry import Reentry
from optimiser.athlete.availability import DAY, Availability
from optimiser.athlete.card import WeekInfo
from optimiser.athlete.exercise import Exercise
from optimiser.athlete.hold import Hold, Restart, hold_for
from optimiser.athlete.measured import Measured
from optimiser.athlete.squad import Athlete, Squad
from optimiser.domain.season import Season
from optimiser.progress.done_session import DoneSession
from optimiser.rule import Rule


def restart_of(rules: Sequence[Rule]) -> Restart:
    """Return how work begins again after time off: as the rule on it says, else as by default."""
    rule = next((rule for rule in rules if isinstance(rule, Reentry)), Reentry())
    return Restart(**{name: getattr(rule, name) for name in Restart.model_fields})


def find_availability(
    given: Path | None, squad_path: Path, squad: Squad, tags: Collection[str]
) -> Availability:
    """Return the entries of a file, or of the one beside the squad file, if there is one.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    path = _or_beside(given, squad_path, USUAL)
    if path is None:
        return Availability()
    return read_availability(path, [athlete.name for athlete in squad.athletes], tags)


def find_measured(
    given: Path | None, squad_path: Path, squad: Squad, exercises: Collection[str]
) -> list[Measured]:
    """Return the dated tests of a file, or of the one beside the squad file, if there is one.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    path = _or_beside(given, squad_path, TESTS)
    if path is None or (given is None and of_qualities(path)):
        return []
    return read_measured(path, exercises, [athlete.name for athlete in squad.athletes])


def find_logged(loaded: Loaded, exercises: Mapping[str, Exercise]) -> list[DoneSession]:
    """Return the sets that were logged in a season's folder; none without one.

    Raises
    ------
    InputError
        If the file of what was done cannot be used.
    """
    folder = folder_of(loaded.path)
    if folder is None:
        return []
    sessions = read_done(folder.done, loaded.season, today())
    check_logged(folder.done, sessions, exercises)
    return [each for each in sessions if each.logged]


def find_minutes(given: Path | None, squad_path: Path, squad: Squad, season: Season) -> Played:
    """Return who played how long, of a file or of the one beside the squad file, if there is one.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    path = _or_beside(given, squad_path, MINUTES)
    if path is None:
        return {}
    names = [athlete.name for athlete in squad.athletes]
    return read_minutes(path, names, {fixture.date for fixture in season.fixtures})


def _or_beside(given: Path | None, squad_path: Path, usual: str) -> Path | None:
    """Return the file given, or the usual one beside the squad file; None if there is neither."""
    beside = squad_path.parent / usual
    return given or (beside if beside.is_file() else None)


def with_minutes(info: WeekInfo, played: Mapping[dt.date, float]) -> WeekInfo:
    """Return a week with the minutes one athlete played."""
    matches = tuple(
        each.model_copy(update={"minutes": played.get(each.date)}) for each in info.matches
    )
    return info.model_copy(update={"matches": matches})


def athlete_hold(
    athlete: Athlete, availability: Availability, season: Season, index: int, restart: Restart
) -> Hold:
    """Return what holds one athlete in week ``index`` (from 0).

    Days without training are those of the entries, of the squad file and of closed weeks.
    """
    history = availability.of(athlete.name).with_absence(
        athlete.unavailable_from, athlete.unavailable_to
    )
    return hold_for(history, season.weeks[index].monday, restart, frozenset(_closed(season)))


def _closed(season: Season) -> Iterator[dt.date]:
    for week in season.weeks:
        if week.closed:
            yield from (week.monday + step * DAY for step in range(7))
