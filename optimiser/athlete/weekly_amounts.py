"""What a dose of a band's work adds to a week: ground contacts and metres near top speed."""

from collections.abc import Iterable, Mapping

from optimiser.athlete.dose_sets import contacts_of, scaled_sets
from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.sprint import distance_to
from optimiser.domain.quality import Dose

CONTACTS, NEAR_TOP_SPEED = "contacts", "near_top_speed_m"
#: A field player's curve: top speed in m/s and time constant in s (engineering choice inside the
#: range of the published team means that the evidence tests fit), and the share of top speed from
#: which a metre counts.
TOP_SPEED, TIME_CONSTANT, NEAR = 8.8, 1.15, 0.9


def work_amounts(
    items: Iterable[Item], exercises: Mapping[str, Exercise], dose: Dose
) -> dict[str, int]:
    """Return what a week of a dose holds, by name; names it holds nothing of are left out."""
    found = {CONTACTS: 0.0, NEAR_TOP_SPEED: 0.0}
    for item in items:
        exercise, sets = exercises[item.exercise], scaled_sets(item.sets, dose)
        found[CONTACTS] += contacts_of(item, exercise, sets)
        found[NEAR_TOP_SPEED] += sets * near_top_speed(item, exercise)
    return {name: round(value) for name, value in found.items() if round(value)}


def near_top_speed(item: Item, exercise: Exercise) -> float:
    """Return the metres of one run at 90 % of top speed or more; all-out runs count from there on.

    By the curve of `optimiser.athlete.sprint`, from a standing start, run-ups counted in.
    """
    eased = item.speed is not None and item.speed[1] < 100 * NEAR
    if not exercise.run or not item.metres or exercise.load == "sled" or eased:
        return 0.0
    whole = item.metres + (item.lead_in or 0.0)
    return max(0.0, whole - distance_to(NEAR, TOP_SPEED, TIME_CONSTANT))
