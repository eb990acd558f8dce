"""One thing that was done on one day: a session, practice or a match."""

from pydantic import Field, model_validator

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.document import DoseWord
from optimiser.domain.strict import Strict

#: Whose a record is if it is that of everybody, and what can be done beside the qualities.
SQUAD, PRACTICE, MATCH = "squad", "practice", "match"
#: Whole sessions of a plan, which are shared out over the work in them.
PLACES = ("field", "gym")


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
    exercise, kg, reps, left
        Key of a lift with its load, repetitions and those left in reserve: sets that were logged,
        which tell of an athlete's 1RM.
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
    exercise: str | None = Field(default=None, max_length=40)
    kg: float | None = Field(default=None, gt=0, le=700)
    reps: int | None = Field(default=None, ge=1, le=100)
    left: float | None = Field(default=None, ge=0, le=20)
    note: str = Field(default="", max_length=200)
    where: str = Field(default="", exclude=True)

    @model_validator(mode="after")
    def _check_amount(self) -> "DoneSession":
        amounts = (self.minutes, self.load, self.dose, self.sets, self.exercise)
        if all(value is None for value in amounts):
            raise ValueError("must say minutes, load, dose or sets (got none of them); add one")
        return self

    @model_validator(mode="after")
    def _check_lift(self) -> "DoneSession":
        told = {"kg": self.kg, "reps": self.reps}
        missing = [name for name, value in told.items() if value is None]
        if self.exercise is None:
            given = [name for name in (*told, "left") if getattr(self, name) is not None]
            if given:
                raise ValueError(
                    f"exercise must be given with {given[0]} (got none); name the lift"
                )
        elif missing:
            raise ValueError(f"{missing[0]} must be given with an exercise (got none); add it")
        elif self.of_squad:
            raise ValueError("who must be an athlete where sets are logged (got squad); say whose")
        return self

    @property
    def logged(self) -> bool:
        """Tell whether it is sets of one lift, a part of a session."""
        return self.exercise is not None

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
