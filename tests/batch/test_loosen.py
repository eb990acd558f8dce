import pytest

from constraints import CATALOGUE
from constraints.load import load_rules
from optimiser.batch.loosen import only_loosens

WAIVED = {"load_ramp": {"waive": [{"week": 3, "by": 50}]}}


@pytest.mark.parametrize(
    "tables",
    [
        {"load_ramp": {"percent": 30}},
        {"revisit": {"use": False}},
        {"load_ramp": {"price": 5}},
        WAIVED,
        {"session_caps": {"in_season": {"gym": 3}}},
        {"blocks": {"shortest": 2, "longest": 7}},
        {"congestion": {"sessions": [5, 3, 3, 2]}},
        {"load_ramp": {"percent": 30}, "revisit": {"use": False}},
    ],
)
def test_a_set_that_gives_way_more_only_loosens(tables):
    assert only_loosens(load_rules(tables), load_rules({}))
    assert not only_loosens(load_rules({}), load_rules(tables))


@pytest.mark.parametrize(
    "tables",
    [
        {},
        {"load_ramp": {"percent": 30, "allowance": 200}},
        {"load_ramp": {"percent": 30}, "blocks": {"longest": 5}},
        {"deload": {"where": "last"}},
        {"congestion": {"between": [0, 0, 1]}},
    ],
)
def test_a_set_that_is_the_same_or_tighter_anywhere_does_not(tables):
    assert not only_loosens(load_rules(tables), load_rules({}))


def test_taking_a_waiver_back_or_raising_a_price_tightens():
    priced, dearer = ({"load_ramp": {"price": price}} for price in (5, 6))

    assert not only_loosens(load_rules({}), load_rules(WAIVED))
    assert only_loosens(load_rules(priced), load_rules(dearer))
    assert not only_loosens(load_rules(dearer), load_rules(priced))


def test_every_direction_is_that_of_a_parameter_and_none_goes_both_ways():
    for rule in CATALOGUE.values():
        assert rule.looser_up | rule.looser_down <= set(rule.model_fields)
        assert not rule.looser_up & rule.looser_down
