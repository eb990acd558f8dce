"""Words that several kinds of report share; text from users is whole here, and inert."""

from collections.abc import Iterator

from cli.render.clean_text import clean
from cli.render.plan_table import UNPROVEN
from cli.render.proof import document_lines
from cli.render.week_days import empty_day, session_content
from cli.render.week_marks import marks_told
from optimiser.days.week_plan import DayPlan, MatchInfo
from optimiser.domain.document import PlanDocument, WeekPart


def match_told(match: MatchInfo) -> str:
    """Return a match in words."""
    name = clean(match.opponent or match.competition) or "match"
    who = f"against {name}" if match.opponent else name
    parts = [f"Match {match.kickoff}" if match.kickoff else "Match", who]
    cup = clean(match.competition) if match.opponent else ""
    more = ", ".join(part for part in (cup, match.venue, f"{match.priority} priority") if part)
    return f"{' '.join(parts)} ({more})"


def day_things(day: DayPlan) -> Iterator[tuple[str, int | None, int | None]]:
    """Yield everything on a day in words, with its minutes and its load in AU, by the hour."""
    timed: list[tuple[str, str, int | None, int | None]] = [
        (each.start or "", clean(session_content(each)), each.minutes, each.load)
        for each in day.sessions
    ]
    if day.practice:
        told = day.practice
        timed.append((told.start or "", "Team practice", told.minutes, told.load))
    things: list[tuple[str, int | None, int | None]] = [
        (f"{start} {words}" if start else words, minutes, load)
        for start, words, minutes, load in sorted(timed, key=lambda thing: thing[0] or "~")
    ]
    if day.match:
        things += [(match_told(match), None, match.load) for match in day.match.each]
    yield from things or [(empty_day(day), None, None)]


def week_span(week: WeekPart) -> str:
    """Return a week's days and what it is part of."""
    block = "closed" if week.block is None else f"block {week.block}, week {week.block_week}"
    marks = marks_told(week)
    return ", ".join([week.phase.value, block, *marks])


def status_words(document: PlanDocument) -> str:
    """Return how sure it is that no better plan exists."""
    if document.season is not None:
        return " ".join(document_lines(document)).rstrip(".")
    return UNPROVEN.rstrip(".")
