import pytest

from optimiser.athlete.exercise import Item
from optimiser.athlete.library import default_library
from optimiser.athlete.minutes import rising_percents, set_seconds, work_minutes
from optimiser.domain.quality import Dose
from optimiser.domain.scenario import Scenario
from optimiser.setup.qualities import build_qualities, default_qualities

LIBRARY = default_library()
WORKED = (Dose.TOUCH, Dose.REDUCED, Dose.FULL)
ladders = pytest.mark.parametrize("quality", default_qualities(), ids=lambda quality: quality.key)


@ladders
def test_minutes_are_fives_that_hold_the_work_and_rise_with_the_dose(quality):
    for rung in range(len(quality.bands)):
        items = LIBRARY.items(quality, rung)
        found = [work_minutes(items, LIBRARY.exercises, dose) for dose in WORKED]
        # of the last rest of each exercise the walk to the next is left, 60 s at most
        seconds = sum(
            item.sets * set_seconds(item, LIBRARY.exercises[item.exercise])
            - max(0, sum(item.rest or (60, 60)) / 2 - 60)
            for item in items
        )

        assert found == sorted(found)
        assert all(minutes % 5 == 0 for minutes in found)
        assert 60 * found[-1] >= seconds


@ladders
def test_planned_minutes_are_those_of_sets_and_rests_at_every_band_and_dose(quality):
    for rung in range(len(quality.bands)):
        items = LIBRARY.items(quality, rung)

        for dose in WORKED:
            assert quality.minutes(dose, rung) == work_minutes(items, LIBRARY.exercises, dose)


def test_a_scenarios_own_sets_change_the_minutes_it_plans():
    scenario = Scenario.model_validate(
        {
            "name": "Own work",
            "first_monday": "2026-07-06",
            "weeks": 4,
            "prescriptions": {"M4": {"exercise": "deadlift", "sets": 10, "reps": 2, "rest": 240}},
            "qualities": {"sprint": {"doses": {"touch": {"minutes": 7}}}},
        }
    )
    sprint, *_, strength, _ = build_qualities(scenario)
    usual = default_qualities()[4]

    # ten sets of 8 s with nine rests of 4 min are 38 min, and a way of 60 s to what comes next
    assert strength.minutes(Dose.FULL, 3) == 40
    assert strength.minutes(Dose.FULL, 2) == usual.minutes(Dose.FULL, 2)
    assert [sprint.minutes(Dose.TOUCH, rung) for rung in range(5)] == [7] * 5


def test_heavy_doubles_take_as_long_as_their_rests_and_rising_sets():
    squat = Item(exercise="squat", sets=4, reps=2, percent=90, rest=240)

    # four rising sets of 75 s, four sets of 8 s, three rests of 240 s and 60 s to what comes next
    # are 18.5 min
    assert work_minutes([squat], LIBRARY.exercises, Dose.FULL) == 20


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


def test_a_set_done_with_each_side_works_twice_and_rests_once():
    exercises = default_library().exercises.values()
    one, both = (next(each for each in exercises if each.side == side) for side in ("each", "both"))
    alike = one.model_copy(update={"side": "both"})
    item = Item(exercise="x", sets=1, seconds=(20.0, 20.0), rest=(30.0, 30.0))

    assert set_seconds(item, alike) == set_seconds(item, both) == 50
    assert set_seconds(item, one) == 70
