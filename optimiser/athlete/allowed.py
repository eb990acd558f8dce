"""Which band an athlete may do, and which exercise.

Rows of the ladder are only ever lowered here, never raised. The medical team and the coach decide;
these are the least the tool insists on.
"""

from collections.abc import Callable

from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.hold import NO_HOLD, Hold
from optimiser.athlete.library import Library
from optimiser.athlete.squad import Athlete
from optimiser.athlete.strength import percent_for
from optimiser.domain.quality import Quality

#: Under 18: below this percentage of the 1RM (engineering choice after Faigenbaum et al. 2009,
#: Journal of Strength and Conditioning Research 23(5): S60-79).
YOUNG_PERCENT = 90.0

#: Rungs that stand this high on a ladder, 0-100, are its top bands.
TOP = 75

#: From this share of top speed on, in per cent, a run is all out.
ALL_OUT = 95.0

Fits = Callable[[Quality, int, Library], bool]


def allowed_rung(
    athlete: Athlete, quality: Quality, rung: int, library: Library, hold: Hold = NO_HOLD
) -> tuple[int | None, list[str]]:
    """Return the highest rung up to ``rung`` the athlete may do, and why it is lower.

    None if the whole ladder is too much.

    Parameters
    ----------
    hold
        What the way back and time off allow this week.

    References
    ----------
    Before shock work: NSCA, squat of about 1.5 x body mass, balance and landing control. After two
    weeks off or more: Caterisano et al. (2019), Strength and Conditioning Journal 41(3): 1-23.
    Which bands that means is an engineering choice.
    """
    held: int | None = rung
    reasons: list[str] = []
    for applies, fits, reason in (
        (not hold.free, _within(hold), hold.why),
        (not athlete.plyometrics_ready, _is_soft, "top jump bands wait for the readiness tick"),
        (athlete.young, _is_light, f"under 18: nothing at {YOUNG_PERCENT:g} % of the 1RM or more"),
    ):
        lower = _lower(quality, held, library, fits) if applies else held
        if lower != held:
            held = lower
            reasons.append(reason)
    return held, reasons


def intensity(item: Item, exercise: Exercise) -> float:
    """Return the highest percentage of the 1RM an item may reach; 0 if it is not a heavy lift.

    Read from the repetition table where the item gives repetitions and no percentage.
    """
    if item.percent:
        return item.percent[1]
    if not exercise.lifted or exercise.fast or not item.reps:
        return 0.0
    left = item.reserve[0] if item.reserve else 0.0
    return percent_for(min(15.0, item.reps[0] + left))


def _lower(quality: Quality, rung: int | None, library: Library, fits: Fits) -> int | None:
    while rung is not None and not fits(quality, rung, library):
        rung = rung - 1 if rung else None
    return rung


def _within(hold: Hold) -> Fits:
    """Return what tells whether a rung keeps to a hold."""

    def fits(quality: Quality, rung: int, library: Library) -> bool:
        if hold.rung is not None and rung >= hold.rung:
            return False
        if quality.place == "field" and not hold.field:
            return False
        return all(
            _allowed(item, library.exercises[item.exercise], hold)
            for item in library.items(quality, rung)
        )

    return fits


def _allowed(item: Item, exercise: Exercise, hold: Hold) -> bool:
    """Tell whether a hold allows an item, once its speed is brought down."""
    if item.metres and not hold.lets_run:
        return exercise.load == "none" and item.speed is not None and item.speed[1] < ALL_OUT
    if exercise.jump and hold.jumps < (2 if exercise.single else 1):
        return False
    return hold.fast or not exercise.fast


def _is_soft(quality: Quality, rung: int, library: Library) -> bool:
    return quality.position(rung) < TOP or not _jumping(quality, library)


def _is_light(quality: Quality, rung: int, library: Library) -> bool:
    items = library.items(quality, rung)
    return all(intensity(i, library.exercises[i.exercise]) < YOUNG_PERCENT for i in items)


def _jumping(quality: Quality, library: Library) -> bool:
    if quality.key == "plyometrics" or any("contacts" in band.amounts for band in quality.bands):
        return True
    items = [i for rung in range(len(quality.bands)) for i in library.items(quality, rung)]
    return quality.place == "field" and any(library.exercises[i.exercise].jump for i in items)
