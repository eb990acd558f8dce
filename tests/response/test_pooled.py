"""A squad is pooled: known constants come back, and what cannot be known is refused."""

import datetime as dt
from functools import cache

import numpy as np
import pytest
from fit_squads import FIRST, TRUE, daily_loads

from optimiser.response.panel import make_panel
from optimiser.response.pooled import fit_panel, pooled
from optimiser.response.record import OPENING, Load, MeasuredResult

WEEKS, LEVELS = 26, 6.0


def made(seed, athletes=20, dates=5, noise=0.6, own=True, spread=0.0):
    """Return results and loads of athletes with levels of their own and one response."""
    rng, days = np.random.default_rng(seed), 7 * WEEKS
    shared = daily_loads(rng, days)
    results, loads = [], []
    for number in range(athletes):
        name = f"A{number:02}"
        load = daily_loads(rng, days) if own else shared
        whole = [*np.full(500, load[:OPENING].mean()), *load]
        at = (
            rng.choice(np.arange(20, days, 3), dates, replace=False)
            if own
            else np.linspace(20, days - 2, dates)
        )
        answer, level = 1 + spread * rng.normal(), 50 + rng.normal(0, LEVELS)
        for day in sorted(map(int, at)):
            value = level + answer * TRUE.performance(whole, 500 + day) + rng.normal(0, noise)
            results.append(MeasuredResult(FIRST + dt.timedelta(days=day), float(value), name))
        loads += [
            Load(FIRST + dt.timedelta(days=day), float(load[day]), name) for day in range(days)
        ]
    return results, loads


@cache
def fitted(seed, spread=0.0):
    return fit_panel(make_panel(*made(seed, spread=spread)))


@pytest.mark.parametrize("seed", range(2))
def test_twenty_athletes_and_five_dates_give_the_constants_back(seed):
    fit = fitted(seed)

    assert fit.reasons == ()
    assert (fit.tests, fit.athletes) == (100, 20)
    assert fit.estimate.tau_fitness == pytest.approx(TRUE.tau_fitness, rel=0.25)
    assert fit.estimate.tau_fatigue == pytest.approx(TRUE.tau_fatigue, rel=0.25)
    assert fit.estimate.ratio == pytest.approx(1.8, rel=0.25)
    assert fit.forecast.model < fit.forecast.naive


def test_intervals_hold_the_truth_also_where_athletes_answer_differently():
    held = [
        around.low <= true <= around.high
        for seed in range(4)
        for around, true in [
            (fitted(seed, 0.25).intervals["tau_fitness"], TRUE.tau_fitness),
            (fitted(seed, 0.25).intervals["tau_fatigue"], TRUE.tau_fatigue),
        ]
    ]

    # nine of ten in the long run
    assert sum(held) >= 6


def test_levels_are_drawn_towards_the_squads_by_what_the_results_say():
    panel = make_panel(*made(1))
    found = pooled(panel.grid(), panel.results, panel.who)

    # the ratio of variances is that of levels and noise, give or take
    assert 20 < found.ratio < 500
    assert np.std(found.own) == pytest.approx(LEVELS, rel=0.4)


def test_one_load_for_all_is_as_many_histories_as_dates_and_refused():
    results, loads = made(0, own=False)
    squads = [Load(load.date, load.value) for load in loads if load.athlete == "A00"]

    fit = fit_panel(make_panel(results, squads))

    assert fit.estimate is None
    assert any("only 5 different histories of load" in reason for reason in fit.reasons)


def test_results_that_have_nothing_to_do_with_load_are_refused():
    results, loads = made(2)
    rng = np.random.default_rng(5)
    noise = [MeasuredResult(row.date, float(rng.normal(50, 3)), row.athlete) for row in results]

    assert fit_panel(make_panel(noise, loads)).reasons != ()


def test_few_athletes_are_not_pooled():
    results, loads = made(0, athletes=7)

    assert make_panel(results, loads) is None


def test_the_same_seed_gives_the_same_intervals():
    panel = make_panel(*made(3, athletes=10))

    assert fit_panel(panel, 1).intervals == fit_panel(panel, 1).intervals
