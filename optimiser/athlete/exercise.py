"""An exercise, and one item of work done with it."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, model_validator

from optimiser.domain.strict import Strict

#: Training age and technique, as a coach sees them.
TrainingLevel = Literal["beginner", "intermediate", "advanced"]
#: Said of an exercise that has no cue of its own.
USUAL_CUE = "Move well; end the set when form or speed drops"
Implement = Literal["none", "bar", "dumbbells", "machine", "sled"]


def _span(value: Any) -> Any:
    """Return a number, ``"3-5"`` or a pair as a pair."""
    if isinstance(value, str):
        parts = value.replace("–", "-").split("-")
        return [part.strip() for part in parts] if len(parts) == 2 else [value.strip()] * 2
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return [value, value]
    return value


Span = Annotated[tuple[float, float], BeforeValidator(_span)]


class Exercise(Strict):
    """An exercise of the library.

    Parameters
    ----------
    name
        Name on the card.
    equipment
        What must be on hand.
    load
        How it is made heavier.
    of
        Exercise whose 1RM its percentages mean; its own if left out.
    side
        Repetitions are for both sides together, or for each.
    jump
        Every repetition is a ground contact.
    single
        A jump or a landing on one leg.
    run
        Done over a distance.
    timed
        Done for seconds; metres of what it stands in for do not count.
    fast
        Done for speed, so that repetitions in reserve say little.
    avoid
        Tags of restrictions that rule it out.
    instead
        Keys of what takes its place, first choice first, and then what takes the place of that.
    also
        Keys of what is done in its place where a week has it already.
    level
        Lowest training level it is for.
    strain
        Loads one muscle near its most at length.
    hold
        Seconds of one set where it takes the place of a run or of repetitions.
    cue
        One line of coaching.
    """

    name: str = Field(min_length=1, max_length=40)
    equipment: tuple[str, ...] = ()
    load: Implement = "none"
    of: str | None = None
    side: Literal["both", "each"] = "both"
    jump: bool = False
    single: bool = False
    run: bool = False
    timed: bool = False
    fast: bool = False
    avoid: tuple[str, ...] = ()
    instead: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    level: TrainingLevel = "beginner"
    strain: bool = False
    hold: Span | None = None
    cue: str = Field(default=USUAL_CUE, max_length=80)

    @property
    def over_distance(self) -> bool:
        """Return True if it is done over metres."""
        return self.run or self.load == "sled"

    @property
    def lifted(self) -> bool:
        """Return True if its load can be given in per cent of a 1RM."""
        return self.load in ("bar", "dumbbells", "machine")


class Item(Strict):
    """Sets of one exercise. Spans are written ``5``, ``"3-5"`` or ``[3, 5]``.

    Parameters
    ----------
    exercise
        Key in the library.
    sets
        At full dose.
    reps, seconds
        Of one set.
    metres, lead_in
        Of one run, and run before them.
    rest
        Between sets, in s.
    percent
        Of the 1RM.
    reserve
        Repetitions left at the end of a set.
    loss
        Top speed a sled takes, in per cent.
    body_mass
        Sled load in per cent of body mass, if it is not given by ``loss``.
    speed
        Per cent of top speed.
    note
        A few words on the card.
    planned
        Key of the exercise this one stands in for; ``note`` says why. Set by the program.
    """

    exercise: str
    sets: int = Field(default=1, ge=1, le=30)
    reps: Span | None = None
    seconds: Span | None = None
    metres: float | None = Field(default=None, gt=0, le=1000)
    lead_in: float | None = Field(default=None, gt=0, le=200)
    rest: Span | None = None
    percent: Span | None = None
    reserve: Span | None = None
    loss: Span | None = None
    body_mass: Span | None = None
    speed: Span | None = None
    note: str = Field(default="", max_length=120)
    planned: str = Field(default="", exclude=True)

    @model_validator(mode="after")
    def _check(self) -> "Item":
        limits = {
            "reps": (1, 100),
            "seconds": (1, 3600),
            "rest": (0, 3600),
            "percent": (0, 110),
            "reserve": (0, 10),
            "loss": (0, 99),
            "body_mass": (0, 300),
            "speed": (1, 110),
        }
        for name, (least, most) in limits.items():
            span = getattr(self, name)
            if span and not least <= span[0] <= span[1] <= most:
                raise ValueError(
                    f"{name} must rise within {least} to {most} (got {span[0]:g} to {span[1]:g})"
                )
        if self.reps is None and self.seconds is None and self.metres is None:
            raise ValueError("an item must have reps, seconds or metres (got none of them)")
        return self
