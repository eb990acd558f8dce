import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.athlete.jumps import jump_height, part_contacts, reactive_strength, stretch_cycle
from optimiser.athlete.load import ewma, session_load, week_load
from optimiser.athlete.power import power_zone
from optimiser.athlete.prilepin import check, zone_of
from optimiser.athlete.sled import class_by_load, fit_losses, fit_speeds, load_for
from optimiser.athlete.strength import EQUATIONS, effort, one_rm, percent_for, reps_at, reserve_at

LOADS = st.lists(st.floats(0, 2000), min_size=2, max_size=14)


@given(LOADS)
def test_running_means_stay_between_the_smallest_and_largest_day(daily):
    means = ewma(daily, 7)

    assert means.shape == (len(daily),)
    assert min(daily) - 1e-9 <= means.min() <= means.max() <= max(daily) + 1e-9


@given(LOADS, st.floats(0.1, 10))
def test_monotony_does_not_depend_on_the_unit(daily, factor):
    first, second = week_load(daily), week_load([load * factor for load in daily])

    if first.monotony is not None and second.monotony is not None:
        assert second.monotony == pytest.approx(first.monotony, rel=1e-3)


def test_no_days_give_no_running_mean():
    assert ewma([], 7).shape == (0,)


@given(st.floats(20, 300), st.integers(2, 15), st.sampled_from(EQUATIONS))
def test_more_repetitions_mean_a_higher_1rm(load, reps, equation):
    assert one_rm(load, reps, equation) > one_rm(load, reps - 1, equation) >= load


@given(st.floats(1, 15), st.floats(1, 15))
def test_more_repetitions_never_allow_more_load(first, second):
    low, high = sorted((first, second))

    assert percent_for(low) >= percent_for(high)


@given(st.floats(1, 15))
def test_the_table_undoes_itself(reps):
    assert reps_at(percent_for(reps)) == pytest.approx(reps)


@given(st.floats(10, 250), st.floats(1, 80))
def test_a_line_of_losses_gives_back_its_loads(zero, loss):
    found = fit_losses([loss / 100 * zero, loss / 200 * zero], [loss, loss / 2])

    assert load_for(loss, found.zero_load) == pytest.approx(loss / 100 * zero)


@given(st.floats(0, 100))
def test_a_set_of_one_or_two_is_never_too_long_above_90(percent):
    if percent >= 90:
        assert check(percent, 3, 2).reps == "fits"


def test_zones_start_at_their_own_edge():
    assert [zone_of(percent).optimum for percent in (69.9, 70, 79.9, 80, 89.9, 90)] == [
        24,
        18,
        18,
        15,
        15,
        7,
    ]


def test_contacts_rise_with_level():
    found = [part_contacts("off-season", level) for level in ("beginner", "advanced")]

    assert found[0] < found[1]


@pytest.mark.parametrize(
    "call",
    [
        lambda: session_load(11, 60),
        lambda: session_load(5, -1),
        lambda: session_load(5, math.inf),
        lambda: week_load([100]),
        lambda: week_load([100, -1]),
        lambda: week_load([100, math.nan]),
        lambda: ewma([100], 0.5),
        lambda: one_rm(0, 5),
        lambda: one_rm(100, 0),
        lambda: one_rm(100, 21),
        lambda: one_rm(100, 5, "own"),
        lambda: percent_for(0),
        lambda: percent_for(12, 4),
        lambda: reps_at(64),
        lambda: reps_at(101),
        lambda: reserve_at(50, 3),
        lambda: effort(11),
        lambda: check(0, 3, 3),
        lambda: check(80, 0, 3),
        lambda: power_zone(101),
        lambda: jump_height(0),
        lambda: reactive_strength(0.3, 0),
        lambda: stretch_cycle(math.nan),
        lambda: fit_speeds([0, 20], [8]),
        lambda: fit_speeds([20, 20], [8, 7]),
        lambda: fit_speeds([0, 20], [7, 8]),
        lambda: fit_losses([], []),
        lambda: fit_losses([0], [10]),
        lambda: fit_losses([20], [100]),
        lambda: load_for(100),
        lambda: load_for(10, 0),
        lambda: class_by_load(-1),
    ],
)
def test_refuses_numbers_that_cannot_be(call):
    with pytest.raises(ValueError, match="must"):
        call()
