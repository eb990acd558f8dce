"""What is known of a fixture."""

import datetime as dt
from typing import Literal

from pydantic import Field

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.work import ScenarioDraft, Telling


class Describe(EditBase):
    """Say otherwise what the fixture of a day is; what is left out stays.

    Parameters
    ----------
    kickoff
        Local start time.
    """

    edit: Literal["describe"] = "describe"
    date: CalendarDay
    opponent: str | None = Field(default=None, max_length=200)
    competition: str | None = Field(default=None, max_length=200)
    venue: Literal["", "home", "away", "neutral"] | None = None
    kickoff: dt.time | None = None
    travel_hours: float | None = Field(default=None, ge=0, le=48)

    def make(self, work: ScenarioDraft) -> None:
        """Change what is given."""
        given = self.model_dump(exclude={"edit", "date"}, exclude_none=True)
        work.at(self.date).change(**given)

    def told(self, telling: Telling) -> str:
        """Say what is given."""
        hours = None if self.travel_hours is None else f"{self.travel_hours:g}"
        forms = {
            "against {}": self.opponent,
            "{}": self.competition,
            "at {}": None if self.kickoff is None else f"{self.kickoff:%H:%M}",
            "{} ": self.venue,
            "{} h of travel": hours,
        }
        said = [
            form.format(value or "none").strip()
            for form, value in forms.items()
            if value is not None
        ]
        return f"Match of {telling.day(self.date)}: {', '.join(said) or 'as it was'}"
