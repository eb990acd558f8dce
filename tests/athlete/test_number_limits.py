import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.athlete.sled import fit_losses, load_for
from optimiser.athlete.strength import EQUATIONS, effort, one_rm, percent_for, reps_at, reserve_at
from optimiser.athlete.week_load import week_load

LOADS = st.lists(st.floats(0, 2000), min_size=2, max_size=14)


@given(LOADS, st.floats(0.1, 10))
def test_monotony_does_not_depend_on_the_unit(daily, factor):
    first, second = week_load(daily), week_load([load * factor for load in daily])

    if first.monotony is not None and second.monotony is not None:
        assert second.monotony == pytest.approx(first.monotony, rel=1e-3)


@pytest.mark.parametrize("load", [0, 300])
def test_equal_days_have_no_monotony(load):
    found = week_load([load] * 7)

    assert (found.total, found.monotony, found.strain) == (7 * load, None, None)


@given(st.floats(20, 300), st.integers(2, 15), st.sampled_from(EQUATIONS))
def test_more_repetitions_mean_a_higher_1rm(load, reps, equation):
    assert one_rm(load, reps, equation) > one_rm(load, reps - 1, equation) >= load


@pytest.mark.parametrize("equation", EQUATIONS)
def test_one_repetition_is_the_load_itself(equation):
    assert one_rm(142.5, 1, equation) == 142.5


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


@pytest.mark.parametrize(
    "call",
    [
        lambda: week_load([100]),
        lambda: week_load([100, -1]),
        lambda: week_load([100, math.nan]),
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
        lambda: fit_losses([], []),
        lambda: fit_losses([0], [10]),
        lambda: fit_losses([20], [100]),
        lambda: load_for(100),
        lambda: load_for(10, 0),
    ],
)
def test_refuses_numbers_that_cannot_be(call):
    with pytest.raises(ValueError, match="must"):
        call()
