"""Known constants are found again, and what cannot be known is refused."""

from dataclasses import replace

import numpy as np
import pytest
from fit_squads import LEVEL, TRUE, listed, squad
from two_component import Response

from optimiser.domain.quality import Quality
from optimiser.response.fit import fit_quality, weekly_spread
from optimiser.response.fragment import refused_by, scenario_ratio
from optimiser.response.grid import make_grid
from optimiser.response.least_squares import estimate, predicted
from optimiser.response.record import Load, MeasuredResult, Record, make_record
from optimiser.setup.qualities import default_qualities


def test_without_noise_the_constants_are_found_to_the_step_of_the_grid():
    found = fit_quality(squad(0, noise=0.0)).estimate

    assert found.tau_fitness == pytest.approx(TRUE.tau_fitness, rel=0.06)
    assert found.tau_fatigue == pytest.approx(TRUE.tau_fatigue, rel=0.07)
    assert found.ratio == pytest.approx(1.8, rel=0.1)
    assert found.level == pytest.approx(LEVEL, abs=1.0)


@pytest.mark.parametrize("seed", range(6))
def test_with_noise_the_interval_holds_the_true_time_constants_and_ratio(seed):
    fit = fit_quality(squad(100 + seed))

    assert fit.reasons == ()
    assert fit.intervals["tau_fitness"].low <= 40 <= fit.intervals["tau_fitness"].high
    assert fit.intervals["tau_fatigue"].low <= 9 <= fit.intervals["tau_fatigue"].high
    assert fit.intervals["ratio"].low <= 1.8 <= fit.intervals["ratio"].high
    assert fit.forecast.model < fit.forecast.naive


def test_intervals_hold_the_truth_about_as_often_as_they_say():
    held = 0
    for seed in range(20):
        around = fit_quality(squad(500 + seed, noise=0.05)).intervals["tau_fitness"]
        held += around.low <= 40 <= around.high

    assert held >= 15


def test_more_noise_makes_intervals_wider():
    widths = [
        fit_quality(squad(7, noise=noise)).intervals["tau_fatigue"].times
        for noise in (0.01, 0.05, 0.15)
    ]

    assert widths == sorted(widths)


def test_other_constants_are_told_apart():
    quick = Response(fitness_gain=0.006, fatigue_gain=0.009, tau_fitness=22, tau_fatigue=5)
    found = fit_quality(squad(3, response=quick)).estimate

    assert found.tau_fitness < 30
    assert found.tau_fatigue < 8


def test_the_same_seed_gives_the_same_intervals():
    assert fit_quality(squad(1), 4) == fit_quality(squad(1), 4)
    assert fit_quality(squad(1), 4).intervals != fit_quality(squad(1), 5).intervals


def test_the_best_fit_is_no_worse_than_the_truth():
    record = squad(2)
    grid = make_grid(record)
    best = estimate(grid, record.results)
    near = np.abs(np.log(grid.taus / [40, 9])).sum(axis=1).argmin()
    slow, fast = grid.taus[near]
    truth = replace(best, level=LEVEL, fitness_gain=0.004, fatigue_gain=0.0072,
                    tau_fitness=slow, tau_fatigue=fast)  # fmt: skip

    misses = [((predicted(grid, each) - record.results) ** 2).sum() for each in (best, truth)]

    assert misses[0] <= misses[1]
    assert min(best.fitness_gain, best.fatigue_gain) >= 0


# --- refusals -----------------------------------------------------------------------------


def test_too_few_tests_are_refused():
    record = squad(0, tests=12)

    assert any("too few tests: 12" in reason for reason in fit_quality(record).reasons)
    assert fit_quality(record).estimate is None


def test_tests_of_a_few_weeks_are_refused():
    record = squad(0)
    short = Record(record.loads, np.arange(20) * 3, record.results[:20])

    assert any("too short" in reason for reason in fit_quality(short).reasons)


def test_flat_load_is_refused():
    record = squad(0)
    flat = Record(np.full(len(record.loads), 300.0), record.days, record.results)

    assert weekly_spread(flat) == 0
    assert any("flat load" in reason for reason in fit_quality(flat).reasons)


def test_no_load_at_all_is_refused_as_flat():
    record = squad(0)
    idle = Record(np.zeros(len(record.loads)), record.days, record.results)

    assert any("flat load" in reason for reason in fit_quality(idle).reasons)


def test_results_that_never_change_are_refused():
    record = squad(0)
    same = Record(record.loads, record.days, np.full(len(record.days), 42.0))

    assert any("flat results" in reason for reason in fit_quality(same).reasons)


@pytest.mark.parametrize("seed", range(4))
def test_results_that_have_nothing_to_do_with_load_are_refused(seed):
    record = squad(seed)
    drift = np.cumsum(np.random.default_rng(seed).normal(0, 1, len(record.days)))

    fit = fit_quality(Record(record.loads, record.days, 50 + drift))

    assert fit.reasons != ()


def test_a_fit_that_foretells_no_better_than_the_last_result_is_refused():
    record = squad(0, tests=30)
    steps = np.where(np.arange(30) < 18, 0.0, 30.0)

    fit = fit_quality(Record(record.loads, record.days, 50 + steps))

    assert any("no better than saying the last result again" in r for r in fit.reasons)


def test_load_that_only_lowers_results_is_refused():
    harmless = Response(fitness_gain=0.004, fatigue_gain=1e-9, tau_fitness=20, tau_fatigue=9)
    record = squad(0, noise=0.01, response=harmless)

    fit = fit_quality(Record(record.loads, record.days, 100 - record.results))

    assert fit.reasons != ()


# --- records ------------------------------------------------------------------------------


def test_athletes_tested_on_other_days_are_made_comparable():
    record = squad(0)
    one, loads = listed(record, "Aune")
    two = [MeasuredResult(row.date, row.value + 30, "Bexley") for row in one[::2]]

    made = make_record([*one, *two], loads)

    assert np.ptp(made.results - record.results) < 3


def test_sessions_of_a_day_add_up_and_athletes_are_averaged():
    results, _ = listed(squad(0))
    day = results[0].date
    loads = [Load(day, 100, "a"), Load(day, 200, "a"), Load(day, 500, "b")]

    assert make_record(results, loads).loads[0] == 400


def test_tests_before_the_log_do_not_count():
    results, loads = listed(squad(0))

    made = make_record(results, loads[10:])

    assert len(made.results) == len(results) - 1
    assert made.days[0] == 0


def test_a_log_without_a_test_on_it_is_refused():
    results, loads = listed(squad(0))

    with pytest.raises(ValueError, match="no test lies on or after"):
        make_record(results[:2], loads[100:])
    with pytest.raises(ValueError, match="no load"):
        make_record(results, [])


# --- pieces of a scenario -----------------------------------------------------------------


def power() -> Quality:
    return next(quality for quality in default_qualities() if quality.key == "power")


def test_the_scenario_ratio_times_the_scale_is_the_ratio_of_the_gains():
    fit = fit_quality(squad(0))

    assert scenario_ratio(fit, 0.6) * 0.6 == pytest.approx(fit.estimate.ratio)
    assert refused_by(power(), fit, 0.6) == ""


def test_an_estimate_under_which_training_never_pays_is_refused():
    fit = fit_quality(squad(0))
    gain = fit.estimate.fitness_gain
    tired = replace(fit.estimate, tau_fitness=20.0, tau_fatigue=13.0, fatigue_gain=3 * gain)
    hopeless = replace(fit.estimate, fatigue_gain=1.0)

    for found in (tired, hopeless):
        assert "outweighs" in refused_by(power(), replace(fit, estimate=found), 0.6)
