"""A fixture that is not played."""

from collections.abc import Iterable
from typing import Literal

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.work import ScenarioDraft, Telling
from optimiser.domain.season import Season


class Drop(EditBase):
    """Take the fixture of a day out."""

    edit: Literal["drop"] = "drop"
    date: CalendarDay

    def make(self, work: ScenarioDraft) -> None:
        """Take it out, if another one is left."""
        work.at(self.date).now = None
        if not any(entry.now for entry in work.entries):
            work.refuse("date", "must leave a fixture", "the last one", "keep one")

    def told(self, telling: Telling) -> str:
        """Say which."""
        return f"Match of {telling.day(self.date)} taken out"

    def doubts(self, before: Season, after: Season) -> Iterable[str]:
        """Ask about a great match."""
        for match in before.fixtures:
            if match.date == self.date and match.priority.great:
                yield f"{match.name} on {self.date} is a {match.priority.value} match."
