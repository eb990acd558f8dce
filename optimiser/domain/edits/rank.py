"""How much a fixture matters."""

from typing import Literal

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.work import Telling, Work
from optimiser.domain.fixture import Priority


class Rank(EditBase):
    """Give the fixture of a day another priority."""

    edit: Literal["rank"] = "rank"
    date: CalendarDay
    priority: Priority

    def make(self, work: Work) -> None:
        """Change its priority."""
        work.at(self.date).change(priority=self.priority)

    def told(self, telling: Telling) -> str:
        """Say what it is."""
        return f"Match of {telling.day(self.date)} is {self.priority.value}"
