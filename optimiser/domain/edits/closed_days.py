"""Days on which nobody trains, or on which training is allowed again."""

import datetime as dt
from collections.abc import Iterable
from typing import Literal, Self

from pydantic import Field, model_validator

from optimiser.domain.calendar_day import CalendarDay, check_order
from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.odd_days import matches_while_closed
from optimiser.domain.edits.work import ScenarioDraft, Telling
from optimiser.domain.fixture import Break
from optimiser.domain.season import Season

ONE_DAY = dt.timedelta(days=1)
#: Breaks that keep training away.
KEEPS_AWAY = ("rest", "exams")


class DaysEdit(EditBase):
    """An edit of the days from ``first`` to ``last``, both counted."""

    first: CalendarDay
    last: CalendarDay

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        check_order(self.first, self.last)
        return self

    def span(self, telling: Telling) -> str:
        """Return the days in words."""
        return f"from {telling.day(self.first)} to {telling.day(self.last)}"


class Close(DaysEdit):
    """Allow no training from ``first`` to ``last``, both counted."""

    edit: Literal["close"] = "close"
    note: str = Field(default="", max_length=200)

    def make(self, work: ScenarioDraft) -> None:
        """Add days of rest."""
        work.check_touches(self.first, self.last)
        work.breaks.append(Break(kind="rest", **self.model_dump(exclude={"edit"})))

    def told(self, telling: Telling) -> str:
        """Say which days."""
        return f"Closed {self.span(telling)}"

    def doubts(self, before: Season, after: Season) -> Iterable[str]:
        """Ask about matches on these days."""
        return matches_while_closed(after, self.first, self.last)


class Open(DaysEdit):
    """Take rest and exams off the days from ``first`` to ``last``, both counted."""

    edit: Literal["open"] = "open"

    def make(self, work: ScenarioDraft) -> None:
        """Cut the days out of what keeps training away."""
        work.check_touches(self.first, self.last)
        kept: list[Break] = []
        for item in work.breaks:
            kept += self._outside(item) if item.kind in KEEPS_AWAY else [item]
        if kept == work.breaks:
            got = f"{self.first} to {self.last}"
            work.refuse("first", "must touch a break of rest or exams", got, "correct the days")
        first, last = work.scenario.first_monday, work.scenario.last_day
        work.breaks = [item for item in kept if item.last >= first and item.first <= last]

    def told(self, telling: Telling) -> str:
        """Say which days."""
        return f"Open {self.span(telling)}"

    def _outside(self, item: Break) -> list[Break]:
        """Return what is left of a break: nothing, one part or two."""
        if self.last < item.first or self.first > item.last:
            return [item]
        parts = [(item.first, self.first - ONE_DAY), (self.last + ONE_DAY, item.last)]
        return [
            item.model_copy(update={"first": first, "last": last})
            for first, last in parts
            if first <= last
        ]
