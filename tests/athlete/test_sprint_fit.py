import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sprint_profile import air_drag, distance_at, force_velocity, fraction_at, speed_at

from optimiser.athlete.sprint import distance_to, fit_splits, time_at

MARKS = [5.0, 10.0, 20.0, 30.0, 40.0]
SPEEDS, CONSTANTS = st.floats(5, 12), st.floats(0.5, 2)


@settings(max_examples=40)
@given(SPEEDS, CONSTANTS)
def test_a_fit_recovers_the_curve(vmax, tau):
    found = fit_splits(MARKS, list(time_at(MARKS, vmax, tau)))

    assert (found.vmax, found.tau) == pytest.approx((vmax, tau), rel=1e-5)
    assert found.rms < 1e-6


@settings(max_examples=40)
@given(SPEEDS, CONSTANTS, st.floats(-0.2, 0.4))
def test_a_fit_with_a_free_start_recovers_it_too(vmax, tau, t0):
    found = fit_splits(MARKS, list(time_at(MARKS, vmax, tau) + t0), free_start=True)

    assert (found.vmax, found.tau, found.t0) == pytest.approx((vmax, tau, t0), rel=1e-4, abs=1e-4)


@settings(max_examples=40)
@given(SPEEDS, CONSTANTS, st.lists(st.floats(-0.01, 0.01), min_size=5, max_size=5))
def test_no_nearby_curve_fits_noisy_splits_better(vmax, tau, noise):
    times = time_at(MARKS, vmax, tau) + noise

    found = fit_splits(MARKS, list(times))

    for fast, slow in ((1.002, 1), (0.998, 1), (1, 1.005), (1, 0.995), (1.002, 1.005)):
        other = time_at(MARKS, found.vmax * fast, found.tau * slow) - times
        assert found.rms <= np.sqrt(np.mean(other**2)) + 1e-9


@settings(max_examples=40)
@given(SPEEDS, CONSTANTS, st.floats(0, 200))
def test_time_undoes_distance(vmax, tau, metres):
    assert distance_at(time_at(metres, vmax, tau), vmax, tau) == pytest.approx(metres, abs=1e-8)


@settings(max_examples=40)
@given(SPEEDS, CONSTANTS, st.floats(0.01, 0.995))
def test_fraction_undoes_distance_to_it(vmax, tau, fraction):
    metres = distance_to(fraction, vmax, tau)

    assert fraction_at(metres, vmax, tau) == pytest.approx(fraction, abs=1e-7)


def test_residuals_are_predicted_less_measured():
    times = [1.0, 1.8, 3.1, 4.3, 5.4]

    found = fit_splits(MARKS, times)

    assert found.residuals == pytest.approx(time_at(MARKS, found.vmax, found.tau) - times)


def test_speed_starts_at_nothing_and_ends_at_the_top():
    assert speed_at([0, 100], 9, 1) == pytest.approx([0, 9])


@pytest.mark.parametrize(
    ("metres", "seconds", "said"),
    [
        ([10], [1.9], "at least 2 splits"),
        ([10, 20], [1.9], "at least 2 splits"),
        ([20, 10], [1.9, 3.0], "rise"),
        ([10, 20, 30], [1.9, 1.9, 3.0], "rise"),
        ([10, 20, 30], [1.0, 2.0, 3.0], "levels off"),
        ([10, 20, 30], [2.0, 3.0, 3.5], "levels off"),
        ([10, 20, float("nan")], [2.0, 3.0, 3.5], "rise"),
    ],
)
def test_refuses_splits_that_are_no_sprint(metres, seconds, said):
    with pytest.raises(ValueError, match=said):
        fit_splits(metres, seconds)


def test_a_free_start_needs_a_third_split():
    with pytest.raises(ValueError, match="at least 3"):
        fit_splits([10, 20], [1.9, 3.1], free_start=True)


def test_drag_raises_both_ends_of_the_line():
    free, drag = force_velocity(9, 1.2, 75), force_velocity(9, 1.2, 75, air_drag(1.8, 75))

    assert free.f0 == pytest.approx(75 * 9 / 1.2)
    assert free.v0 == pytest.approx(9)
    assert drag.v0 > free.v0
    assert drag.power > free.power


@pytest.mark.parametrize(("vmax", "tau"), [(0, 1), (9, -1), (9, 0)])
def test_refuses_curves_that_cannot_be(vmax, tau):
    with pytest.raises(ValueError, match="above 0"):
        time_at(10, vmax, tau)
