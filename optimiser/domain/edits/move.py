"""A fixture played on another day."""

import datetime as dt
from collections.abc import Iterable
from typing import Any, Literal

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.odd_days import odd_match_day
from optimiser.domain.edits.work import ScenarioDraft, Telling
from optimiser.domain.season import Season


class Move(EditBase):
    """Play the fixture of ``date`` on another day.

    Parameters
    ----------
    kickoff
        New start time; left out, the old one stays.
    """

    edit: Literal["move"] = "move"
    date: CalendarDay
    to: CalendarDay
    kickoff: dt.time | None = None

    def make(self, work: ScenarioDraft) -> None:
        """Move it, if the other day is free."""
        entry = work.at(self.date)
        if self.to != self.date:
            work.check_free("to", self.to)
        update: dict[str, Any] = {"date": self.to}
        if self.kickoff is not None:
            update["kickoff"] = self.kickoff
        entry.change(**update)

    def told(self, telling: Telling) -> str:
        """Say where to; of one that stays on its day, when it kicks off."""
        match = f"Match of {telling.day(self.date)}"
        if self.date == self.to and self.kickoff is not None:
            return f"{match} kicks off at {self.kickoff:%H:%M}"
        return f"{match} moved to {telling.day(self.to)}"

    def doubts(self, before: Season, after: Season) -> Iterable[str]:
        """Ask about an odd day."""
        return odd_match_day(after, self.to) if self.to != self.date else ()
