"""A new fixture."""

import datetime as dt
from collections.abc import Iterable
from typing import Literal

from pydantic import Field

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.odd_days import odd_match_day
from optimiser.domain.edits.work import MatchDay, ScenarioDraft, Telling
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.season import Season


class Add(EditBase):
    """Add a fixture; see :class:`~optimiser.domain.fixture.Fixture`."""

    edit: Literal["add"] = "add"
    date: CalendarDay
    priority: Priority = Priority.LOW
    opponent: str = Field(default="", max_length=200)
    competition: str = Field(default="", max_length=200)
    venue: Literal["", "home", "away", "neutral"] = ""
    kickoff: dt.time | None = None
    minutes: float | None = Field(default=None, gt=0, le=1440)
    travel_hours: float = Field(default=0.0, ge=0, le=48)
    target: float | None = Field(default=None, ge=0, le=100)
    weight: int | None = Field(default=None, ge=1, le=100)

    def make(self, work: ScenarioDraft) -> None:
        """Add it, if its day is free."""
        work.check_free("date", self.date)
        work.entries.append(MatchDay(None, Fixture(**self.model_dump(exclude={"edit"}))))

    def told(self, telling: Telling) -> str:
        """Say against whom, and when."""
        against = f" against {self.opponent}" if self.opponent else ""
        return f"Match{against} added on {telling.day(self.date)}"

    def doubts(self, before: Season, after: Season) -> Iterable[str]:
        """Ask about an odd day."""
        return odd_match_day(after, self.date)
