import pytest

from optimiser.domain.quality import Dose
from optimiser.domain.rates import Rates
from optimiser.explain.why.alternatives import alternatives
from optimiser.explain.why.edit import block_of, with_band, with_dose
from optimiser.joint_model.cost import season_cost
from optimiser.review.audit import audit_plan

WEEK, QUALITY = 8, 0


@pytest.fixture(scope="module")
def found(minimal, usual_rules, planned):
    return alternatives(minimal.season, planned, usual_rules, QUALITY, WEEK)


def test_every_band_and_dose_is_there_once_and_one_of_each_is_the_plans(minimal, found, planned):
    codes = [band.code for band in minimal.season.qualities[QUALITY].bands]

    assert [each.choice for each in found.bands] == codes
    assert [each.choice for each in found.doses] == ["none", "touch", "reduced", "full"]
    assert [each.choice for each in found.bands if each.current] == [
        codes[planned.rungs[QUALITY][WEEK]]
    ]
    assert [each.choice for each in found.doses if each.current] == [
        planned.doses[QUALITY][WEEK].word
    ]


def test_what_is_forbidden_breaks_a_rule_and_what_is_allowed_breaks_none(
    minimal, usual_rules, planned, found
):
    for rung, each in enumerate(found.bands):
        breaches = audit_plan(minimal.season, with_band(planned, QUALITY, WEEK, rung), usual_rules)
        assert set(each.breaches) == set(breaches)
    assert any(each.breaches for each in found.bands)


def test_costs_are_those_of_the_changed_plan(minimal, usual_rules, planned, found):
    def cost(plan):
        return season_cost(minimal.season, usual_rules, plan, Rates()).total

    for rung, each in enumerate(found.bands):
        changed = with_band(planned, QUALITY, WEEK, rung)
        assert each.cost.total == cost(changed) - cost(planned)


def test_a_band_changes_through_its_block_and_nowhere_else(planned):
    block = block_of(planned, WEEK)

    changed = with_band(planned, QUALITY, WEEK, 0)

    assert [changed.rungs[QUALITY][week] for week in block] == [0] * len(block)
    outside = [week for week in range(planned.weeks) if week not in block]
    assert all(changed.rungs[QUALITY][w] == planned.rungs[QUALITY][w] for w in outside)
    assert changed.rungs[1:] == planned.rungs[1:]


def test_another_dose_may_take_another_session(minimal, planned):
    ways = list(with_dose(minimal.season, planned, QUALITY, WEEK, Dose.NONE))

    assert all(way.doses[QUALITY][WEEK] is Dose.NONE for way in ways)
    assert ways[0].field == planned.field
    assert len({way.field[WEEK] for way in ways}) == len(ways) > 3
    assert all(way.gym == planned.gym for way in ways)
