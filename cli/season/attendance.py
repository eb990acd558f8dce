"""How many of the squad are there, beside a week and before a plan.

The plan is the squad's: one absence changes cards and nothing else. A week says who is there, and
days on which most are not are asked about, as only people know whether they are to be closed.
"""

import datetime as dt
import textwrap
from collections.abc import Mapping

from cli.files.own_work import read_library, squad_at
from cli.files.scenario_file import Loaded
from cli.files.squad import lists_nobody
from cli.holding import find_availability
from cli.render.terminal import WIDTH, filled
from optimiser.athlete.attendance import Absence, attendance, days_between, shared_absences
from optimiser.athlete.availability import DAY, AthleteHistory, AvailabilityEntry, Status
from optimiser.domain.season import Week

#: Names told of one kind.
MOST = 6


def squad_histories(loaded: Loaded) -> dict[str, AthleteHistory]:
    """Return the entries of every athlete of the squad file; nobody without one.

    Of a group's own season they are those of its athletes.

    Raises
    ------
    InputError
        If the squad file or availability.csv cannot be used.
    """
    if loaded.scenario.squad_file is None:
        return {}
    path = loaded.path.parent / loaded.scenario.squad_file
    if not path.is_file() or lists_nobody(path):
        return {}
    squad = squad_at(path, loaded)
    entered = find_availability(None, path, squad, read_library(loaded).tags)
    found = {}
    for each in squad.athletes:
        if loaded.group and each.group != loaded.group:
            continue
        history = entered.of(each.name).with_absence(each.unavailable_from, each.unavailable_to)
        found[each.name] = history if each.cleared is not False else _held(each.name)
    return found


def _held(name: str) -> AthleteHistory:
    """Return what holds somebody who is not cleared."""
    return AthleteHistory(
        entries=(AvailabilityEntry(athlete=name, first=dt.date.min, status=Status.OUT),)
    )


def week_attendance(squad: Mapping[str, AthleteHistory], week: Week, group: str = "") -> str:
    """Return who is there in a week, day by day where it changes; "" without a squad.

    Parameters
    ----------
    group
        Whose athletes these are, if not the whole squad's.
    """
    whose = (group or "squad").capitalize()
    if not squad:
        return ""
    days = [week.monday + step * DAY for step in range(7)]
    counts = [len(attendance(squad, day).there) for day in days]
    if min(counts) == len(squad):
        return f"{whose}: all {len(squad)} are there."
    spans: list[tuple[dt.date, dt.date, int]] = []
    for day, count in zip(days, counts, strict=True):
        if spans and spans[-1][2] == count:
            spans[-1] = (spans[-1][0], day, count)
        else:
            spans.append((day, day, count))
    told = ", ".join(f"{_span(first, last)} {count}" for first, last, count in spans)
    head = f"{counts[0]}" if len(spans) == 1 else told
    lines = [f"{whose}: {head} of {len(squad)} are there.", *_names(squad, days)]
    return filled(" ".join(lines))


def _span(first: dt.date, last: dt.date) -> str:
    return f"{first:%a}" if first == last else f"{first:%a} to {last:%a}"


def _names(squad: Mapping[str, AthleteHistory], days: list[dt.date]) -> list[str]:
    """Return who is out, away or limited on some day of the week."""
    seen = [attendance(squad, day) for day in days]
    told = []
    for word, kind in (("Out", "out"), ("Away", "away"), ("Limited", "limited")):
        names = list(dict.fromkeys(name for each in seen for name in getattr(each, kind)))
        if names:
            more = f" and {len(names) - MOST} more" if len(names) > MOST else ""
            told.append(f"{word}: {', '.join(names[:MOST])}{more}.")
    return told


def questions_of_absences(loaded: Loaded, today: dt.date | None) -> list[str]:
    """Return what is to be asked about days to come on which most of the squad is not there.

    To be called before a search: what cannot be read is told while nothing is lost.

    Raises
    ------
    InputError
        If the squad file or availability.csv cannot be used.
    """
    squad = squad_histories(loaded)
    season = loaded.season
    first = max(season.weeks[0].monday, today or dt.date.min)
    last = season.weeks[-1].monday + 6 * DAY
    closed = {day for week in season.weeks for day in _closed(week)}
    # a command is there to be copied, so no line ends inside a word of it
    lines = textwrap.TextWrapper(WIDTH, break_on_hyphens=False, break_long_words=False)
    absences = shared_absences(squad, days_between(first, last), closed)
    return [lines.fill(_question(loaded, each, len(squad))) for each in absences]


def _closed(week: Week) -> list[dt.date]:
    """Return the days of a week on which nobody trains."""
    if week.closed:
        return [week.monday + step * DAY for step in range(7)]
    away = [each for each in week.breaks if each.kind in ("rest", "exams")]
    return [day for each in away for day in days_between(each.first, each.last)]


def _question(loaded: Loaded, each: Absence, squad: int) -> str:
    who = "nobody is" if not each.fewest else f"only {each.fewest} {_are(each.fewest)}"
    days = f"{each.first}:{each.last}"
    of = f"the {squad} {loaded.group}" if loaded.group else f"the squad of {squad}"
    head = f"From {each.first} to {each.last} {who} there of {of}"
    if loaded.group:
        return (
            f"{head}, and their plan has work for all. Cards give none to those who are not there; "
            "days that are off for the whole squad are a break in the scenario ([[breaks]])."
        )
    place = loaded.path.parent if loaded.path.name == "season.toml" else loaded.path
    apply = " --apply" if place.is_dir() else ""
    return (
        f"{head}, and the plan has work for all. If those days are off: `seasonwright whatif "
        f"{place} --close {days}{apply}`."
    )


def _are(count: int) -> str:
    return "is" if count == 1 else "are"
