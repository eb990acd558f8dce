"""Athletes: who they are, what they were tested at and what they must not do."""

import datetime as dt
from collections import Counter
from typing import Annotated, Self

from pydantic import Field, model_validator

from optimiser.athlete.exercise import TrainingLevel as TrainingLevel
from optimiser.domain.group import Group as Group
from optimiser.domain.strict import Strict

Kilograms = Annotated[float, Field(gt=0, le=700)]
Seconds = Annotated[float, Field(gt=0, le=60)]
Metres = Annotated[float, Field(gt=0, le=200)]
Loss = Annotated[float, Field(gt=0, lt=100)]
SledPercent = Annotated[float, Field(gt=0, le=300)]
ADULT = 18


class Lift(Strict):
    """A test of one lift: its 1RM, or a load done for repetitions to failure.

    Parameters
    ----------
    one_rm_kg
        Measured.
    load_kg, reps
        A set from which the 1RM is estimated; both or neither, 1 to 20 repetitions.
    tested
        Day of the test, if known.
    logged, error
        Last day of sets that the 1RM is worked out from too, and its error in per cent.
    slips
        What is said of logged sets that were not used.
    """

    one_rm_kg: Kilograms | None = None
    load_kg: Kilograms | None = None
    reps: int | None = Field(default=None, ge=1, le=20)
    tested: dt.date | None = None
    logged: dt.date | None = None
    error: float | None = Field(default=None, gt=0, le=100)
    slips: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _check(self) -> Self:
        if (self.load_kg is None) != (self.reps is None):
            given = "a load alone" if self.reps is None else "repetitions alone"
            raise ValueError(f"a load and its repetitions must come together (got {given})")
        if self.one_rm_kg is None and self.load_kg is None:
            raise ValueError("a lift must have a 1RM, or a load and its repetitions (got neither)")
        return self


class Restriction(Strict):
    """Something the medical staff keep an athlete from.

    Parameters
    ----------
    tag
        A contraindication of the exercise library, such as ``knee``.
    first, last
        First and last day, both counted; left out, it is open on that side.
    """

    tag: str = Field(pattern=r"^[a-z][a-z0-9_-]*$", max_length=40)
    first: dt.date | None = None
    last: dt.date | None = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        _check_order(self.first, self.last)
        return self

    def touches(self, first: dt.date, last: dt.date) -> bool:
        """Return True if it holds on any day from ``first`` to ``last``."""
        return _overlap(self.first, self.last, first, last)


class Athlete(Strict):
    """One athlete.

    Parameters
    ----------
    age
        In whole years; with ``under_18`` left out it says who is young.
    training_level
        Of somebody under 18, by training age and technique; a coach's word.
    lifts
        Tests by exercise key.
    splits
        Times in s by distance in m, from a standing start.
    sled_losses
        Loss of top speed in per cent by sled load in per cent of body mass.
    cleared
        True once the medical staff have cleared a returning athlete; False holds anybody back.
    plyometrics_ready
        True once landing control, single-leg balance and strength are good enough for shock
        work; a coach's tick.
    restrictions
        What must be left out, and when.
    unavailable_from, unavailable_to
        First and last day without training, both counted; one alone is open on the other side.
    """

    name: str = Field(min_length=1, max_length=80)
    group: Group
    body_mass_kg: float = Field(ge=20, le=250)
    height_cm: float | None = Field(default=None, ge=100, le=250)
    age: int | None = Field(default=None, ge=8, le=99)
    under_18: bool | None = None
    training_level: TrainingLevel = "beginner"
    lifts: dict[str, Lift] = Field(default_factory=dict)
    splits: dict[Metres, Seconds] = Field(default_factory=dict)
    sled_losses: dict[SledPercent, Loss] = Field(default_factory=dict)
    cleared: bool | None = None
    plyometrics_ready: bool = False
    restrictions: tuple[Restriction, ...] = ()
    unavailable_from: dt.date | None = None
    unavailable_to: dt.date | None = None

    @model_validator(mode="after")
    def _check(self) -> Self:
        _check_order(self.unavailable_from, self.unavailable_to)
        if not self.name.isprintable():
            raise ValueError(f"name must hold printable signs only (got {self.name!a})")
        self._check_age()
        times = [self.splits[metres] for metres in sorted(self.splits)]
        if times != sorted(set(times)):
            raise ValueError(
                f"split times must rise with distance (got {', '.join(map(str, times))} s)"
            )
        return self

    def _check_age(self) -> None:
        if self.age is None or self.under_18 is None:
            return
        if self.under_18 != (self.age < ADULT):
            raise ValueError(
                f"age and under_18 must agree (got {self.age} and {str(self.under_18).lower()}); "
                "correct one or leave it out"
            )

    @property
    def young(self) -> bool:
        """Return True if the under-18 profile applies."""
        return bool(self.under_18) or (self.age is not None and self.age < ADULT)

    @property
    def level(self) -> TrainingLevel:
        """Return what a coach entered; who is grown up is advanced unless told otherwise."""
        told = self.young or "training_level" in self.model_fields_set
        return self.training_level if told else "advanced"

    @property
    def waiting(self) -> bool:
        """Return True while somebody is not cleared: said so, or returning and not said at all."""
        if self.cleared is None:
            return self.group is Group.RETURNING
        return not self.cleared

    def away(self, first: dt.date, last: dt.date) -> bool:
        """Return True if no day from ``first`` to ``last`` is open to training."""
        start, end = self.unavailable_from, self.unavailable_to
        if start is None and end is None:
            return False
        return (start is None or start <= first) and (end is None or end >= last)

    def partly_away(self, first: dt.date, last: dt.date) -> bool:
        """Return True if some but not all days from ``first`` to ``last`` are open."""
        start, end = self.unavailable_from, self.unavailable_to
        if (start is None and end is None) or self.away(first, last):
            return False
        return _overlap(start, end, first, last)

    def banned(self, first: dt.date, last: dt.date) -> frozenset[str]:
        """Return the tags of every restriction that holds between two days."""
        return frozenset(found.tag for found in self.restrictions if found.touches(first, last))


class Squad(Strict):
    """Athletes whose names differ."""

    athletes: tuple[Athlete, ...] = Field(min_length=1, max_length=1000)

    @model_validator(mode="after")
    def _check(self) -> Self:
        counted = Counter(athlete.name.casefold() for athlete in self.athletes)
        twice = [a.name for a in self.athletes if counted[a.name.casefold()] > 1]
        if twice:
            raise ValueError(f"every athlete must have a name of their own (got {twice[0]} twice)")
        return self


def _check_order(first: dt.date | None, last: dt.date | None) -> None:
    if first and last and last < first:
        raise ValueError(
            f"the last day must not come before the first (got {first} to {last}); swap them"
        )


def _overlap(start: dt.date | None, end: dt.date | None, first: dt.date, last: dt.date) -> bool:
    return (start is None or start <= last) and (end is None or end >= first)
