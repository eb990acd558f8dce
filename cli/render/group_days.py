"""The days on which groups train together, as text."""

from collections.abc import Sequence
from itertools import zip_longest

from cli.render.terminal import ruled_lines
from optimiser.domain.document import PlanDocument, SessionDayPart, WeekPart
from optimiser.domain.quality import Place
from optimiser.domain.wording import weeks_listed
from optimiser.groups.groups_apart import done_apart

#: Weeks are told in so many columns.
ACROSS = 3
HEADS = ("Week", "Monday", "Field", "Gym", "")


def days_text(documents: Sequence[PlanDocument]) -> str:
    """Return the days of the sessions of every week, the same for all groups.

    Parameters
    ----------
    documents
        One a group, that of a group that is there all season first.
    """
    weeks = [week for week in documents[0].weeks if week.days]
    if not weeks:
        return ""
    size = -(-len(weeks) // ACROSS)
    columns = [weeks[start : start + size] for start in range(0, len(weeks), size)]
    rows = [[cell for week in row for cell in _cells(week)][:-1] for row in zip_longest(*columns)]
    heads = list(HEADS * len(columns))[:-1]
    align = (["right", "left", "left", "left", "left"] * len(columns))[:-1]
    told = "Days of the sessions, the same for every group:"
    return "\n".join([told, *ruled_lines([heads], rows, align), *_apart(documents)])


def _cells(week: WeekPart | None) -> list[str]:
    if week is None:
        return [""] * len(HEADS)
    monday = f"{week.monday.day} {week.monday:%b}"
    return [str(week.week), monday, _days(week.days, "field"), _days(week.days, "gym"), ""]


def _days(parts: Sequence[SessionDayPart], place: Place) -> str:
    return " ".join(f"{part.date:%a}" for part in parts if part.place == place)


def _apart(documents: Sequence[PlanDocument]) -> list[str]:
    """Return in which weeks work had to be shared out over the same days in more than one way."""
    by_week = zip(*(document.weeks for document in documents), strict=True)
    found = [weeks[0].week for weeks in by_week if done_apart([week.days for week in weeks])]
    if not found:
        return []
    return [f"In {weeks_listed(found)} some groups do the same work on another of these days."]
