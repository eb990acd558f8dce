import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.batch.row import BatchRow
from optimiser.batch.rule_sets import bootstrap_interval, compare_rule_sets

scores = st.lists(st.floats(-50, 50), min_size=1, max_size=40)


def rows_of(rules, values):
    return [
        BatchRow(
            season=f"s{at}", rules=rules, status="clash" if value is None else "proven", match=value
        )
        for at, value in enumerate(values)
    ]


def test_pairs_are_seasons_planned_under_both():
    rows = rows_of("base", [80, 90, None, 70, 60]) + rows_of("new", [81, 88, 75, None, 60.01])

    new = next(item for item in compare_rule_sets(rows, "base") if item.rules == "new")

    assert (new.pairs, new.wins, new.draws, new.losses) == (3, 1, 1, 1)
    assert new.difference == pytest.approx(0.01)
    assert (new.seasons, new.planned, new.clash, new.trouble) == (5, 4, 1, 0)


def test_sets_are_ranked_by_the_median_difference_around_the_base():
    rows = rows_of("base", [80, 80]) + rows_of("worse", [70, 79]) + rows_of("better", [85, 81])

    assert [item.rules for item in compare_rule_sets(rows, "base")] == ["better", "base", "worse"]


def test_a_set_without_a_plan_comes_last_and_is_not_dropped():
    rows = rows_of("never", [None]) + rows_of("base", [80]) + rows_of("worse", [10])

    found = compare_rule_sets(rows, "base")

    assert [item.rules for item in found] == ["base", "worse", "never"]
    assert (found[-1].clash, found[-1].difference, found[-1].match) == (1, None, None)


def test_trouble_is_not_counted_as_a_clash():
    killed = BatchRow(season="s", rules="base", status="killed")

    (found,) = compare_rule_sets([killed], "base")

    assert (found.clash, found.trouble) == (0, 1)


@given(scores)
def test_the_interval_lies_around_the_median_inside_the_values(values):
    low, high = bootstrap_interval(values)

    assert min(values) <= low <= high <= max(values)
    assert bootstrap_interval(values) == (low, high)


def test_the_interval_of_a_normal_sample_has_its_textbook_width():
    values = np.random.default_rng(1).normal(0, 1, 400)

    low, high = bootstrap_interval(values)

    # the median of n normal values has a standard error of 1.2533 / sqrt(n)
    assert high - low == pytest.approx(2 * 1.96 * 1.2533 / 20, rel=0.25)
    assert low < np.median(values) < high


@pytest.mark.parametrize("values", [[], [[1.0, 2.0]]])
def test_the_interval_needs_one_row_of_values(values):
    with pytest.raises(ValueError, match="at least one"):
        bootstrap_interval(values)
