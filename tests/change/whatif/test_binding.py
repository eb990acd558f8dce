import pytest

from constraints.load import load_rules
from optimiser.change.apply import apply_edits
from optimiser.change.binding import bindings, tight
from optimiser.change.side_by_side import compare
from optimiser.domain.edits import Rank, Set
from optimiser.domain.quality import Dose


@pytest.fixture(scope="module")
def capped(short):
    edit = Set(rule="session_caps", parameter="field_minutes", value=30)
    changed = apply_edits(short.scenario, short.season, [edit])
    return load_rules(changed.scenario.rules, changed.season)


def test_nothing_new_binds_between_a_plan_and_itself(short, short_rules, short_plan):
    side = (short.season, short_plan, short_rules)

    found = bindings(side, side, range(4))

    assert (found.now, found.no_more) == ((), ())
    assert found.looked_at == (0, 1, 2, 3)


def test_a_rule_made_tighter_binds_now(short, short_rules, short_plan, capped):
    season = short.season
    was = (season, short_plan, short_rules)
    loose = tight(season, short_plan, short_rules, range(7)).get("session_caps", {})
    here = tight(season, short_plan, capped, range(7)).get("session_caps", {})

    found = bindings(was, (season, short_plan, capped), range(7))

    new = {week for item in found.now if item.rule == "session_caps" for week, _ in item.weeks}
    assert new == {week for week in here if not loose.get(week)} & set(found.looked_at)


def test_a_full_week_has_nothing_left_to_bind(short, short_rules, plain_plan):
    full = plain_plan(short.season, dose=Dose.FULL)

    assert tight(short.season, full, short_rules, range(7)) == {}


def test_totals_and_fixtures_of_two_plans_are_set_side_by_side(short, short_plan, plain_plan):
    season = short.season
    changed = apply_edits(
        short.scenario, season, [Rank(date=season.fixtures[0].date, priority="medium")]
    )

    found = compare((season, short_plan), (changed.season, plain_plan(season)), changed.pairs)

    assert [row.now.opponent for row in found.fixtures] == ["Tolland", "Ashby Vale"]
    assert found.fixtures[0].before.score > 0
    assert found.totals_after.training < found.totals_before.training
    assert {row.week for row in found.weeks} == set(range(7))
    assert found.totals_before.field == sum(short_plan.field)
