"""A week day by day as text."""

from collections.abc import Iterator

from cli.render.terminal import bullet, table_text
from cli.render.words import one_line
from optimiser.athlete.week_load import WeekLoad
from optimiser.days.day import Kind
from optimiser.days.spacing_settings import SCHOOL
from optimiser.days.week_plan import DayPlan, MatchInfo, PracticeInfo, SessionPlan, WeekPlan

SCHOOL_HINT = (
    'Hours of school: [rules.spacing] school = ["{:%H:%M}", "{:%H:%M}"] keeps them free for the '
    "whole squad, other hours say what is so, [] that there are none."
)
HEADERS = ("Day", "Near", "At", "On the day", "min", "AU")
WIDEST = 56
#: A day with nothing on it, by its kind; any other is free.
EMPTY = {Kind.CLOSED: "Closed", Kind.TRAVEL: "Travel", Kind.RECOVERY: "Recovery", Kind.REST: "Rest"}
ABOUT = (
    "Monotony is mean over sample standard deviation of the seven days, strain is load times "
    "monotony (Foster 1998): they describe the week and are no limits. MD-2 is two days before a "
    "match, MD+1 the day after one."
)


def week_text(week: WeekPlan, season: str) -> str:
    """Return a week as text, at most 100 signs wide."""
    table = table_text(
        [row for day in week.days for row in _rows(day)],
        HEADERS,
        lined=True,
        sides=("left", "left", "left", "left", "right", "right"),
        widths=[None, None, None, WIDEST, None, None],
    )
    told = [*(f"Not kept: {fault}." for fault in week.faults), *week.notes]
    told += [SCHOOL_HINT.format(*SCHOOL)] if week.own_times else []
    told += filter(None, [week.minutes.words, week_load_words(week.load)])
    return "\n".join([_heading(week, season), "", table, "", *map(bullet, [*told, ABOUT])])


def week_load_words(load: WeekLoad) -> str:
    """Return a week's load in words."""
    told = f"Load {load.total:.0f} AU, {load.mean:.0f} a day"
    if load.monotony is None or load.strain is None:
        return f"{told}; monotony and strain are not defined, as all days are alike."
    return f"{told}; monotony {load.monotony:.2f}, strain {load.strain:.0f}."


def _heading(week: WeekPlan, season: str) -> str:
    first, last = week.days[0].date, week.days[-1].date
    return f"{one_line(season)}, week {week.week}, {first} to {last}, {week.phase.value}"


def _rows(day: DayPlan) -> Iterator[tuple[str, ...]]:
    """Yield a line for each thing on a day, the day's own name on the first only."""
    name, near = f"{day.date:%a %d %b}", day.label
    for at, what, minutes, load in _things(day) or [("", empty_day(day), "", "")]:
        yield name, near, at, what, minutes, load
        name = near = ""


def _things(day: DayPlan) -> list[tuple[str, str, str, str]]:
    """Return start, words, minutes and AU of everything on a day, in the order of the day."""
    found = [
        (_span(each), session_content(each), str(each.minutes), str(each.load))
        for each in day.sessions
    ]
    if day.practice:
        minutes = "" if day.practice.minutes is None else str(day.practice.minutes)
        found.append((_span(day.practice), "Team practice", minutes, str(day.practice.load)))
    played = day.match.each if day.match else ()
    found += [(match.kickoff or "", match_words(match), "", str(match.load)) for match in played]
    return sorted(found, key=lambda thing: thing[0] or "~")


def _span(thing: SessionPlan | PracticeInfo) -> str:
    return f"{thing.start}-{thing.end}" if thing.start else "no time"


def empty_day(day: DayPlan) -> str:
    """Return what is said of a day with nothing on it."""
    return EMPTY.get(day.kind, "Free")


def session_content(session: SessionPlan) -> str:
    """Return what a session holds, in order, and when it may start."""
    told = f"{session.place.title()}: {', '.join(work.words for work in session.work)}"
    for word, time in (("from", session.start_from), ("start by", session.start_by)):
        told += f"; {word} {time}" if time else ""
    return told


def match_words(match: MatchInfo) -> str:
    """Return a match in words."""
    who = one_line(match.opponent or match.competition or "match")
    parts = [match.kickoff or "", f"against {who}" if match.opponent else who]
    parts_played = "" if match.share in (None, 1) else _played(match.share or 0)
    found = (match.venue, f"{match.priority} priority", parts_played)
    more = ", ".join(part for part in found if part)
    return f"Match {' '.join(part for part in parts if part)} ({more})"


def _played(share: float) -> str:
    return f"this group plays {100 * share:.0f} %" if share else "this group does not play"


def moved_text(before: WeekPlan, after: WeekPlan) -> str:
    """Return what is on another day or at another time than before; nothing if all is alike."""
    was, now = _places(before), _places(after)
    gone = [words for words in was if words not in now]
    new = [words for words in now if words not in was]
    if not gone and not new:
        return ""
    lines = [*(f"- no longer {words}" for words in gone), *(f"- now {words}" for words in new)]
    kept = sum(words in now for words in was)
    return "\n".join(["Changed by what is asked:", *lines, f"- {kept} of {len(was)} stay"])


def _places(week: WeekPlan) -> list[str]:
    return [
        f"{what} on {day.date:%A}{f' at {start}' if start else ''}"
        for day in week.days
        for what, start in (
            *((session.place, session.start) for session in day.sessions),
            *((("practice", day.practice.start),) if day.practice else ()),
        )
    ]
