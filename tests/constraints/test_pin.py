import pytest
from made_seasons import assert_agrees, audit_excess, make_plan, make_season
from pydantic import ValidationError

from constraints.pin import Pin, Pinned
from optimiser.rule import Waiver

FOUR = make_season(4)


def _pin(*choices, **more):
    return Pin(choices=tuple(Pinned(**choice) for choice in choices), **more)


def _plan(season=FOUR):
    """Sprint on rungs 1 and 3 with full and touch doses; power on rung 2, nothing done."""
    return make_plan(season, [0, 2], [[0, 2], [1, 1]], [[3, 3, 1, 1], [0] * 4])


def test_reports_bands_and_doses_that_are_not_the_pinned_ones():
    rule = _pin(
        {"week": 1, "quality": "sprint", "band": 2, "dose": "touch"},
        {"week": 4, "quality": "power", "dose": "full"},
    )

    assert audit_excess(rule, _plan(), FOUR) == {
        (0, "sprint", "band", "choices"): 1,
        (0, "sprint", "dose", "doses"): 2,
        (3, "power", "dose", "doses"): 3,
    }
    assert_agrees(rule, _plan(), FOUR)


def test_pins_that_are_kept_cost_nothing():
    rule = _pin(
        {"week": 1, "quality": "sprint", "band": "B1", "dose": "full"},
        {"week": 4, "quality": "sprint", "band": 3, "dose": "touch"},
        {"week": 4, "quality": "power", "band": "B2", "dose": "none"},
    )

    assert rule.audit(_plan(), FOUR) == []
    assert_agrees(rule, _plan(), FOUR)


def test_a_pin_twice_counts_twice_and_two_that_differ_cannot_both_be_kept():
    twice = _pin(*[{"week": 1, "quality": "power", "band": 1}] * 2)
    differ = _pin(*({"week": 1, "quality": "power", "band": band} for band in (1, 2)))

    assert audit_excess(twice, _plan(), FOUR) == {(0, "power", "band", "choices"): 2}
    assert audit_excess(differ, _plan(), FOUR) == {(0, "power", "band", "choices"): 1}
    assert_agrees(twice, _plan(), FOUR)
    assert_agrees(differ, _plan(), FOUR)


def test_in_a_closed_week_only_nothing_can_be_pinned():
    season = make_season(4, closed=(1,))
    rule = _pin(
        {"week": 2, "quality": "sprint", "band": 1},
        {"week": 2, "quality": "power", "dose": "none"},
        {"week": 2, "quality": "power", "dose": "touch"},
    )

    assert audit_excess(rule, _plan(season), season) == {
        (1, "sprint", "", "choices"): 1,
        (1, "power", "", "choices"): 1,
    }
    assert_agrees(rule, _plan(season), season)


def test_a_season_of_one_week():
    season = make_season(1)
    rule = _pin({"week": 1, "quality": "sprint", "band": 4, "dose": "none"})
    plan = make_plan(season, [0], [[3], [0]], [[1], [0]])

    assert audit_excess(rule, plan, season) == {(0, "sprint", "dose", "doses"): 1}
    assert_agrees(rule, plan, season)


def test_a_waiver_lets_the_pins_of_its_week_go():
    choices = [{"week": week, "quality": "sprint", "band": 4} for week in (1, 2)]
    rule = _pin(*choices, waive=(Waiver(week=2, quality="sprint"),))

    assert audit_excess(rule, _plan(), FOUR) == {(0, "sprint", "band", "choices"): 1}
    assert_agrees(rule, _plan(), FOUR)


@pytest.mark.parametrize(
    ("choice", "says"),
    [
        ({"week": 5, "quality": "sprint", "band": 1}, "week must be 1 to 4"),
        ({"week": 1, "quality": "juggling", "band": 1}, "quality must be one of sprint, power"),
        ({"week": 1, "quality": "sprint", "band": 5}, "band must be one of B1, B2, B3, B4"),
        ({"week": 1, "quality": "sprint", "band": "top"}, "band must be one of B1, B2, B3, B4"),
    ],
)
def test_pins_the_season_does_not_have_are_refused(choice, says):
    with pytest.raises(ValueError, match=says):
        _pin(choice).check(FOUR)


def test_a_pin_of_nothing_and_an_unknown_dose_are_refused():
    with pytest.raises(ValidationError, match="a band, a dose or both"):
        Pinned(week=1, quality="sprint")
    with pytest.raises(ValidationError, match="none, touch, reduced or full"):
        Pinned(week=1, quality="sprint", dose="lots")
