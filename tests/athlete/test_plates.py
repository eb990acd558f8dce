import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.athlete.plates import PLATES, dumbbell, load_bar, step_load

RACKS = st.lists(st.sampled_from([0.5, 1.25, 2.5, 5.0, 10.0, 20.0]), max_size=8)


@given(st.floats(20, 400), RACKS)
def test_a_bar_is_never_heavier_than_asked_for(kg, plates):
    assert load_bar(kg, 20, plates).total_kg <= kg + 1e-6


@given(st.floats(20, 320))
def test_a_full_rack_comes_within_a_step(kg):
    assert kg - load_bar(kg).total_kg < 2.5 + 1e-6


@given(st.floats(20, 400), RACKS)
def test_plates_are_on_hand_and_add_up(kg, plates):
    found = load_bar(kg, 20, plates)

    left = list(plates)
    for plate in found.per_side:
        left.remove(plate)
    assert found.total_kg == pytest.approx(20 + 2 * sum(found.per_side))


@given(st.floats(20, 400), st.floats(20, 400), RACKS)
def test_more_wanted_is_never_less_loaded(first, second, plates):
    low, high = sorted((first, second))

    assert load_bar(low, 20, plates).total_kg <= load_bar(high, 20, plates).total_kg


def test_a_gap_in_the_rack_is_not_jumped():
    assert load_bar(45, 20, [20, 1.25]).total_kg == 22.5


@pytest.mark.parametrize("percent", [60, 67.5, 70, 85, 90])
def test_a_load_that_can_be_put_on_is_not_missed_by_a_rounding_error(percent):
    assert load_bar(200 * percent / 100).total_kg == 2 * percent


@pytest.mark.parametrize(
    ("kg", "plates"), [(20, ()), (60, (20,)), (70, (25,)), (100, (25, 15)), (120, (25, 25))]
)
def test_no_more_plates_than_needed(kg, plates):
    assert load_bar(kg).per_side == plates


@pytest.mark.parametrize(
    ("kg", "bar", "plates"), [(19.9, 20, PLATES), (50, 0, PLATES), (50, 20, (-5,))]
)
def test_refuses_less_than_the_bar_and_masses_that_are_none(kg, bar, plates):
    with pytest.raises(ValueError, match="must be"):
        load_bar(kg, bar, plates)


@given(st.floats(2.5, 50))
def test_dumbbells_are_the_heaviest_not_above(kg):
    found = dumbbell(kg)

    assert found % 2.5 == 0
    assert -1e-6 <= kg - found < 2.5


def test_dumbbells_end_at_the_heaviest():
    assert dumbbell(80, heaviest=42.5) == 42.5
    with pytest.raises(ValueError, match="the lightest"):
        dumbbell(2)


@given(st.floats(0, 500), st.sampled_from([1.0, 2.5, 5.0]))
def test_steps_are_the_largest_not_above(kg, step):
    assert -1e-6 <= kg - step_load(kg, step) < step
