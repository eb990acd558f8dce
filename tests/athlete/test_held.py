"""Work brought down to what is allowed: where it ends, how it is parted, what is left of it."""

import pytest

from optimiser.athlete.card import Kit, Line
from optimiser.athlete.exercise import Item
from optimiser.athlete.held_items import held_items
from optimiser.athlete.hold import Hold
from optimiser.athlete.library import default_library
from optimiser.athlete.lift_load import lift_load, reserve
from optimiser.athlete.load_in_block import progressed
from optimiser.athlete.sessions import _share
from optimiser.athlete.sprint import distance_to
from optimiser.athlete.squad import Athlete, Lift
from optimiser.athlete.volume import (
    BUILT_UP,
    SPEED_STEP,
    USUAL_TAU,
    USUAL_TOP,
    amount,
    built_up,
    held_under,
    lifted,
    metres,
)
from optimiser.domain.quality import Dose

LIBRARY = default_library()
RUN = next(
    key
    for key, each in sorted(LIBRARY.exercises.items())
    if each.over_distance and not each.timed and each.load == "none"
)
LIFT = next(
    key
    for key, each in sorted(LIBRARY.exercises.items())
    if each.lifted and not each.fast and each.load == "bar"
)


def run(far, sets=1, speed=None):
    return Item(exercise=RUN, sets=sets, metres=far, speed=speed)


@pytest.mark.parametrize(("most", "left"), [(15, [15]), (14, [10]), (10, [10]), (9, [])])
def test_a_run_is_cut_to_ten_metres_and_left_out_below(most, left):
    kept = held_under([run(15.0)], LIBRARY, Dose.FULL, {metres: most})

    assert [item.metres for item in kept] == left


def test_what_asks_for_most_is_cut_first():
    kept = held_under([run(20.0), run(60.0, sets=2)], LIBRARY, Dose.FULL, {metres: 80})

    assert [(item.sets, item.metres) for item in kept] == [(1, 20.0), (1, 60.0)]


@pytest.mark.parametrize("far", [20.0, 30.0, 40.0, 60.0])
def test_a_run_is_as_fast_as_can_be_built_up_to_and_no_slower(far):
    top = built_up(run(far, speed=(80.0, 90.0))).speed[1]

    def needed(speed):
        return BUILT_UP * distance_to(speed / 100, USUAL_TOP, USUAL_TAU)

    assert top <= 90
    assert needed(top) <= far or top == SPEED_STEP
    assert top == 90 or needed(top + SPEED_STEP) > far


def test_the_share_of_a_full_dose_is_one_of_the_full_dose():
    items = [Item(exercise=LIFT, sets=4, reps=(5.0, 5.0), percent=(75.0, 75.0))]
    half = Hold(full_share=0.5)
    full, reduced = (amount(items, LIBRARY, dose, lifted) for dose in (Dose.FULL, Dose.REDUCED))
    held = amount(
        held_items(items, items, half, LIBRARY, Dose.REDUCED), LIBRARY, Dose.REDUCED, lifted
    )

    assert held == min(reduced, max(have for have in (reduced, full / 2) if have <= full / 2))


def line(sets):
    return Line(key=LIFT, exercise="Lift", sets=sets, reps=(3.0, 3.0))


@pytest.mark.parametrize("parts", [1, 2, 3])
def test_the_parts_of_a_weeks_sets_are_all_of_them_and_as_even_as_they_go(parts):
    lines = [line(3), line(3), line(2)]
    shared = [_share(lines, part, parts) for part in range(parts)]
    sums = [sum(each.sets for each in part) for part in shared]

    assert sum(sums) == 8
    assert max(sums) - min(sums) <= 1


def test_what_is_left_in_reserve_spans_from_the_heavy_to_the_light_end():
    # NSCA, Essentials of Strength Training and Conditioning: 85 % is a 6RM, 75 % a 10RM
    item = Item(exercise=LIFT, sets=3, reps=(5.0, 5.0), percent=(75.0, 85.0))

    assert reserve(item) == (1, 5)


@pytest.mark.parametrize(("week", "percent"), [(1, 76), (2, 78), (3, 80), (4, 82), (5, 82)])
def test_loads_rise_inside_a_block_to_the_bands_own_in_the_third_week(week, percent):
    item = Item(exercise=LIFT, sets=3, reps=(3.0, 3.0), percent=(80.0, 80.0))

    assert progressed([item], LIBRARY, week)[0].percent == (percent, percent)


@pytest.mark.parametrize("age", [25, 16])
def test_a_bar_is_never_loaded_above_the_percentage(age):
    lifter = Athlete(
        name="A", group="squad", body_mass_kg=70, age=age, lifts={LIFT: Lift(one_rm_kg=103)}
    )
    item = Item(exercise=LIFT, sets=2, reps=(3.0, 3.0), percent=(40.0, 60.0))

    assert lift_load(lifter, LIFT, LIBRARY.exercises[LIFT], item, Kit()).kg[1] == 60.0
