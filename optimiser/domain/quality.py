"""A trainable quality: its ladder of bands, its doses and how it responds."""

from enum import IntEnum
from fractions import Fraction
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from optimiser.domain.strict import Strict

Place = Literal["field", "gym"]
Minutes = Annotated[int, Field(ge=1, le=600)]


class Dose(IntEnum):
    """How much of a band is done in a week, from nothing to all of it."""

    NONE = 0
    TOUCH = 1
    REDUCED = 2
    FULL = 3

    @property
    def word(self) -> str:
        """Return the dose as it is written in files."""
        return self.name.lower()


def dose_of(word: str) -> Dose:
    """Return the dose a file means.

    Raises
    ------
    ValueError
        If ``word`` is not none, touch, reduced or full.
    """
    try:
        return Dose[word.strip().upper()]
    except KeyError:
        raise ValueError(f"a dose must be none, touch, reduced or full (got {word!r})") from None


class Band(Strict):
    """One rung of a ladder: what the work is.

    Parameters
    ----------
    code
        Two or three signs for a table cell.
    label
        A few words for people.
    work
        The prescription of one full week, in words.
    gain
        Weekly stimulus of the full dose; 1 is the top rung of a default ladder.
    strain
        Fatigue of the full dose; 1 is usual.
    amounts
        What the full dose adds to a week's totals, by name: ``near_top_speed_m`` (metres),
        ``contacts`` (ground contacts), ``hard_sets`` (sets per muscle).
    held
        The same at touch, reduced and full, where sets are counted; a scenario's sets fill it in.
    minutes
        Minutes of work a week at touch, reduced and full, ramp-up sets and rests included; None
        where only the doses say how long work takes. A scenario's sets and rests fill it in.
    """

    code: str = Field(min_length=1, max_length=4)
    label: str = Field(min_length=1, max_length=40)
    work: str = Field(default="", max_length=300)
    gain: float = Field(gt=0, le=2)
    strain: float = Field(default=1.0, ge=0, le=3)
    amounts: dict[str, Annotated[float, Field(ge=0)]] = Field(default_factory=dict)
    held: dict[str, tuple[int, int, int]] = Field(default_factory=dict)
    minutes: tuple[Minutes, Minutes, Minutes] | None = None

    @model_validator(mode="after")
    def _check_rising(self) -> Self:
        if self.minutes is not None and list(self.minutes) != sorted(self.minutes):
            raise ValueError(f"minutes must not fall from touch to full (got {self.minutes})")
        return self


class DoseSpec(Strict):
    """What one dose costs and gives.

    Parameters
    ----------
    minutes
        Minutes of work in the week, at bands that do not say so themselves.
    rpe
        Session rating on the 0-10 scale; load is ``minutes * rpe`` in AU.
    gain
        Share of the full dose's stimulus; concave, as intensity keeps what volume built.
    """

    minutes: Minutes
    rpe: float = Field(gt=0, le=10)
    gain: float = Field(gt=0, le=1)


class Doses(Strict):
    """The three doses above none, each more than the one before.

    Parameters
    ----------
    touch, reduced, full
        What each of them costs and gives.
    """

    touch: DoseSpec
    reduced: DoseSpec
    full: DoseSpec

    @model_validator(mode="after")
    def _check_rising(self) -> Self:
        minutes = [self.touch.minutes, self.reduced.minutes, self.full.minutes]
        if not minutes[0] < minutes[1] < minutes[2]:
            raise ValueError(f"minutes must rise from touch to reduced to full (got {minutes})")
        return self


class Quality(Strict):
    """A quality and its ladder.

    Parameters
    ----------
    key
        Name in files: lower case letters, digits and underscores.
    name
        Name for people.
    place
        Where it is trained.
    doses
        What a week of each dose costs and gives.
    lower_body
        True if more than a touch of it is hard work for the legs.
    weight
        Share in the week's readiness, relative to the other qualities.
    tau_fitness, tau_fatigue
        Time constants in days of what training gives and of what it takes.
    fatigue_ratio
        Fatigue gain over fitness gain (k2 / k1).
    match_gain
        Share of a full dose's stimulus (on the top band) that a whole match gives; 0 leaves it
        out. A starting point is 0.2 for sprint and 0.1 for resisted sprint (common practice, no
        source; Young D. et al. 2019, PLoS ONE, count about 3 runs over 90 % of top speed a match).
    lead
        Weeks by which it builds earlier than the peak.
    low, high
        Range of its emphasis target, 0-100.
    start
        Readiness at the first Monday, 0-100.
    bands
        The ladder, general to specific; at least two.
    """

    key: str = Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=40)
    name: str = Field(min_length=1, max_length=40)
    place: Place
    lower_body: bool = True
    weight: int = Field(default=2, ge=1, le=100)
    tau_fitness: float = Field(gt=0, le=120)
    tau_fatigue: float = Field(gt=0, le=60)
    fatigue_ratio: float = Field(default=1.7, ge=0, le=10)
    match_gain: float = Field(default=0.0, ge=0, le=1)
    lead: int = Field(default=1, ge=0, le=12)
    low: int = Field(default=0, ge=0, le=100)
    high: int = Field(default=100, ge=0, le=100)
    start: float = Field(default=40.0, ge=0, le=100)
    doses: Doses
    bands: tuple[Band, ...] = Field(min_length=2, max_length=12)

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.tau_fatigue >= self.tau_fitness:
            raise ValueError(
                "tau_fatigue must be shorter than tau_fitness "
                f"(got {self.tau_fatigue:g} and {self.tau_fitness:g} days)"
            )
        if self.low >= self.high:
            raise ValueError(f"low must be below high (got {self.low} and {self.high})")
        codes = [band.code for band in self.bands]
        if len(set(codes)) < len(codes):
            raise ValueError(f"the codes of a ladder's bands must differ (got {codes})")
        return self

    def spec(self, dose: Dose) -> DoseSpec | None:
        """Return what ``dose`` costs and gives, or None for no work."""
        return {1: self.doses.touch, 2: self.doses.reduced, 3: self.doses.full}.get(int(dose))

    def minutes(self, dose: Dose, rung: int | None) -> int:
        """Return the minutes of work a week of ``dose`` at ``rung`` (from 0; None: no band)."""
        spec = self.spec(dose)
        own = None if rung is None else self.bands[rung].minutes
        return 0 if spec is None else spec.minutes if own is None else own[dose - 1]

    def load(self, dose: Dose, rung: int | None) -> int:
        """Return the load of a week of ``dose`` at ``rung``, in AU (minutes x rating), whole."""
        spec = self.spec(dose)
        return 0 if spec is None else round(self.minutes(dose, rung) * spec.rpe)

    def strain(self, dose: Dose) -> float:
        """Return the fatigue of a dose as a share of the full dose's."""
        spec, full = self.spec(dose), self.doses.full
        return 0.0 if spec is None else spec.minutes * spec.rpe / (full.minutes * full.rpe)

    def amount(self, name: str, dose: Dose, rung: int) -> int:
        """Return what a week of ``dose`` at ``rung`` adds to a total such as ``contacts``.

        Counted from the sets where they are known; else its share of the full dose by minutes.
        """
        band = self.bands[rung]
        if not dose:
            return 0
        if name in band.held:
            return band.held[name][dose - 1]
        share = Fraction(self.minutes(dose, rung), self.minutes(Dose.FULL, rung))
        return round(Fraction(band.amounts.get(name, 0)) * share)

    @property
    def most_minutes(self) -> int:
        """Return the minutes of a week at full dose on the band that takes longest."""
        return max(self.minutes(Dose.FULL, rung) for rung in range(len(self.bands)))

    @property
    def most_load(self) -> int:
        """Return the load of a week at full dose on the band that takes longest, in AU."""
        return max(self.load(Dose.FULL, rung) for rung in range(len(self.bands)))

    def position(self, rung: int) -> int:
        """Return where ``rung`` (from 0) stands on the ladder, 0 general to 100 specific."""
        return round(100 * rung / (len(self.bands) - 1))
