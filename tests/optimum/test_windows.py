"""A solution improved a few weeks at a time."""

from dataclasses import replace

import pytest
from dose_models import dose_model

from constraints.load import load_rules
from optimiser.engine.branch import Limits, branch
from optimiser.engine.relaxation import relaxation
from optimiser.engine.search import Effort
from optimiser.engine.value import value_of
from optimiser.engine.windows import _Windows, improve
from tests.benchmarks.calendars import season
from tests.rows import holds

EFFORT = Effort(5.0, 60.0)


@pytest.fixture(scope="module", params=[None, 5], ids=["all rules hard", "one with a price"])
def doses(request):
    """Return a dose model, its variables by week and a poor solution."""
    made = season(22, 3, 8, 1)
    rules = [
        rule.model_copy(update={"price": request.param}) if rule.name == "load_ramp" else rule
        for rule in load_rules({}, made)
    ]
    model, windows = dose_model(made, rules)
    poor = branch(model, Limits(gap=0.5, least=0, most=30, workers=1)).values
    assert poor
    return model, windows.groups, poor


def test_it_gets_better_keeps_all_rows_and_repeats(doses):
    model, weeks, poor = doses

    better, used = improve(model, poor, weeks, EFFORT)

    assert value_of(model, better) < value_of(model, poor)
    assert used > 0
    assert all(low <= v <= up for low, v, up in zip(model.lower, better, model.upper, strict=True))
    assert all(holds(row, better) for row in model.rows if row.firm)
    assert improve(model, poor, weeks, EFFORT) == (better, used)


def test_only_the_weeks_of_the_window_change(doses):
    model, weeks, poor = doses

    found = _Windows(model, weeks, EFFORT).searched(poor, range(8, 12))

    outside = [var for week in (*range(8), *range(12, 22)) for var in weeks[week]]
    assert [found[var] for var in outside] == [poor[var] for var in outside]
    assert value_of(model, found) <= value_of(model, poor)


def test_it_ends_when_told_and_when_its_effort_is_used_up(doses):
    model, weeks, poor = doses

    assert improve(model, poor, weeks, EFFORT, halt=lambda: True) == (poor, 0.0)
    assert improve(model, poor, weeks, replace(EFFORT, deterministic=0.0)) == (poor, 0.0)


def test_a_relaxation_that_is_not_wanted_any_more_gives_no_bound(doses):
    model, _, poor = doses

    bound = relaxation(model).bound
    assert bound is not None
    assert bound <= value_of(model, poor)
    assert relaxation(model, halt=lambda: True).bound is None
