"""One choice that a person decides."""

from typing import Literal, Self

from pydantic import Field, model_validator

from optimiser.domain.edits.edit_base import EditBase
from optimiser.domain.edits.work import ScenarioDraft, Telling
from optimiser.domain.quality import dose_of


class PinChoice(EditBase):
    """Decide one choice: ``band`` (code, or rung from 1), ``dose``, or both; week from 1."""

    edit: Literal["pin"] = "pin"
    week: int = Field(ge=1)
    quality: str
    band: str | int | None = None
    dose: str | None = None

    @model_validator(mode="after")
    def _check_choice(self) -> Self:
        if self.band is None and self.dose is None:
            raise ValueError("a pin must give a band, a dose or both (got neither); add one")
        if self.dose is not None:
            dose_of(self.dose)
        return self

    def make(self, work: ScenarioDraft) -> None:
        """Add it to those that are decided."""
        pin = work.rules.setdefault("pin", {})
        choice = self.model_dump(exclude={"edit"}, exclude_none=True)
        pin["choices"] = [*pin.get("choices", ()), choice]

    def told(self, telling: Telling) -> str:
        """Say what is held."""
        chosen = " ".join(str(part) for part in (self.band, self.dose) if part is not None)
        return f"Week {self.week}, {self.quality.replace('_', ' ')}: held at {chosen}"
