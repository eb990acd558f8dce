"""How much a fixture matters."""

from collections.abc import Iterable
from typing import Literal

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.work import ScenarioDraft, Telling
from optimiser.domain.fixture import Priority
from optimiser.domain.season import Season

#: Matches of a season that can be peaked for.
MOST_PEAKS = 2


class Rank(EditBase):
    """Give the fixture of a day another priority."""

    edit: Literal["rank"] = "rank"
    date: CalendarDay
    priority: Priority

    def make(self, work: ScenarioDraft) -> None:
        """Change its priority."""
        work.at(self.date).change(priority=self.priority)

    def told(self, telling: Telling) -> str:
        """Say what it is."""
        return f"Match of {telling.day(self.date)} is {self.priority.value}"

    def doubts(self, before: Season, after: Season) -> Iterable[str]:
        """Ask about more peaks than can be peaked for."""
        peaks = sum(match.priority is Priority.PEAK for match in after.fixtures)
        if self.priority is Priority.PEAK and peaks > MOST_PEAKS:
            yield f"The season then has {peaks} peaks; one or two can be peaked for."
