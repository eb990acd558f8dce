"""One thing that was done on one day: a session, practice or a match."""

from pydantic import Field, model_validator

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.document import DoseWord
from optimiser.domain.strict import Strict

#: Whose a record is if it is that of everybody, and what can be done beside the qualities.
SQUAD, PRACTICE, MATCH = "squad", "practice", "match"


class DoneSession(Strict):
    """What was done on a day.

    Parameters
    ----------
    who
        ``squad``, or the name of an athlete.
    what
        Key of a quality, ``practice`` or ``match``.
    minutes, rpe
        Of work, and the session rating 0-10; load is their product, in AU.
    load
        In AU, where it is known and minutes or rating are not.
    dose
        Of a quality, if it was planned so; ``none`` is a session that was missed.
    band
        Code, if it was another than the planned one.
    sets
        Working sets, where sets are counted and minutes are not.
    where
        Its place in the file, for messages.
    """

    date: CalendarDay
    who: str = Field(default=SQUAD, min_length=1, max_length=80)
    what: str = Field(min_length=1, max_length=60)
    minutes: float | None = Field(default=None, ge=0, le=600)
    rpe: float | None = Field(default=None, ge=0, le=10)
    load: float | None = Field(default=None, ge=0, le=6000)
    dose: DoseWord | None = None
    band: str | None = Field(default=None, max_length=4)
    sets: int | None = Field(default=None, ge=0, le=100)
    note: str = Field(default="", max_length=200)
    where: str = Field(default="", exclude=True)

    @model_validator(mode="after")
    def _check_amount(self) -> "DoneSession":
        if all(value is None for value in (self.minutes, self.load, self.dose, self.sets)):
            raise ValueError("must say minutes, load, dose or sets (got none of them); add one")
        return self

    @property
    def of_squad(self) -> bool:
        """Tell whether it is that of everybody."""
        return self.who.casefold() == SQUAD

    @property
    def au(self) -> float | None:
        """Return its load in AU, or None if it is not known."""
        if self.load is not None:
            return self.load
        return None if self.minutes is None or self.rpe is None else self.minutes * self.rpe
