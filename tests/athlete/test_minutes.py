import pytest

from optimiser.athlete.exercise import Item
from optimiser.athlete.library import default_library
from optimiser.athlete.minutes import rising_percents, set_seconds, work_minutes
from optimiser.domain.quality import Dose
from optimiser.qualities import default_qualities

LIBRARY = default_library()
WORKED = (Dose.TOUCH, Dose.REDUCED, Dose.FULL)


@pytest.mark.parametrize("quality", default_qualities(), ids=lambda quality: quality.key)
def test_minutes_are_fives_that_hold_the_work_and_rise_with_the_dose(quality):
    for rung in range(len(quality.bands)):
        items = LIBRARY.items(quality, rung)
        found = [work_minutes(items, LIBRARY.exercises, dose) for dose in WORKED]
        seconds = sum(
            item.sets * set_seconds(item, LIBRARY.exercises[item.exercise]) for item in items
        )

        assert found == sorted(found)
        assert all(minutes % 5 == 0 for minutes in found)
        assert 60 * found[-1] >= seconds


def test_heavy_doubles_take_as_long_as_their_rests_and_rising_sets():
    squat = Item(exercise="squat", sets=4, reps=2, percent=90, rest=240)

    # four rising sets of 90 s and four sets of 8 s with 240 s of rest are 22.5 min
    assert work_minutes([squat], LIBRARY.exercises, Dose.FULL) == 25


@pytest.mark.parametrize(
    ("percent", "first", "rising"),
    [
        (60, True, ()),
        (75, True, (40, 60)),
        (85, True, (40, 60, 75)),
        (93, True, (40, 60, 75, 85)),
        (93, False, (75, 85)),
    ],
)
def test_two_to_four_rising_sets_come_before_the_first_heavy_lift(percent, first, rising):
    item = Item(exercise="squat", sets=3, reps=3, percent=percent)

    assert rising_percents(item, LIBRARY.exercises["squat"], first=first) == rising
