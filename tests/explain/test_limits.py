import pytest

from optimiser.domain.quality import Dose
from optimiser.explain.limits import BACK, in_the_way, limits
from optimiser.review.audit import audit_plan
from optimiser.review.score import readiness


@pytest.fixture
def found(impossible, plain_plan, usual_rules):
    return limits(impossible.season, plain_plan(impossible.season), usual_rules)


def test_the_worst_match_comes_first_and_one_week_without_a_match_last(impossible, found):
    weeks = impossible.season.weeks

    assert weeks[found[0].week].top_priority == "high"
    assert [bool(weeks[limit.week].fixtures) for limit in found] == [True, True, True, False]


def test_a_break_just_before_a_match_is_counted(found):
    assert found[0].week == 12
    assert (found[0].closed, found[0].back) == (2, 0)


def test_a_rule_that_stops_every_step_leaves_none_free(found, usual_rules):
    for limit in found:
        assert limit.free <= limit.tried
        assert all(each.alone <= each.ways <= limit.tried for each in limit.stopped_by)
        assert {each.rule for each in limit.stopped_by} <= {rule.name for rule in usual_rules}


def test_without_rules_every_step_is_free(impossible, plain_plan):
    bare = limits(impossible.season, plain_plan(impossible.season), [])

    assert all(limit.free == limit.tried > 0 and not limit.stopped_by for limit in bare)


def test_a_full_week_on_the_top_rung_has_no_step_left(impossible, plain_plan):
    full = plain_plan(impossible.season, rung=4, dose=Dose.FULL)

    assert all(limit.tried == 0 for limit in limits(impossible.season, full, []))


def test_rules_that_object_to_a_step_that_would_help_are_named(minimal, plain_plan, usual_rules):
    """Raise doses by hand in the weeks up to the worst match, and ask the audits."""
    season, plan = minimal.season, plain_plan(minimal.season, rung=2, dose=Dose.TOUCH)
    limit = limits(season, plan, usual_rules, fixtures=1, others=0)[0]
    before = set(audit_plan(season, plan, usual_rules))
    objecting = set()
    for week in range(limit.week - BACK + 1, limit.week + 1):
        for quality in range(len(season.qualities)):
            more = raised(plan, quality, week)
            if readiness(season, more)[0][limit.week] > limit.readiness + 0.01:
                new = set(audit_plan(season, more, usual_rules)) - before
                objecting |= {breach.rule for breach in new if breach.week == week}

    assert objecting
    assert objecting <= {each.rule for each in limit.stopped_by}


def test_what_a_rule_alone_stops_is_free_without_it(impossible, plain_plan, usual_rules, found):
    """Take the rule that alone stops most out, and try the same steps again."""
    first = in_the_way(found)[0]
    others = [rule for rule in usual_rules if rule.name != first.rule]
    without = limits(impossible.season, plain_plan(impossible.season), others)

    assert first.alone > 0
    assert sum(each.free for each in without) == sum(each.free for each in found) + first.alone


def test_the_ways_that_bring_most_do_what_is_said_of_them(minimal, plain_plan, usual_rules):
    """Take each way, and ask readiness and audits anew."""
    season, plan = minimal.season, plain_plan(minimal.season, rung=2, dose=Dose.TOUCH)
    (limit,) = limits(season, plan, usual_rules, fixtures=1, others=0)
    before, old = set(audit_plan(season, plan, usual_rules)), readiness(season, plan)[0]

    assert limit.most
    for way in limit.most:
        then = taken(plan, way)
        new = set(audit_plan(season, then, usual_rules)) - before
        ready = readiness(season, then)[0]
        assert ready[limit.week] - old[limit.week] == pytest.approx(way.points)
        assert set(way.rules) <= {breach.rule for breach in new}
        if way.elsewhere is not None:
            assert old[way.elsewhere] - ready[way.elsewhere] >= way.loss - 1e-9


def test_a_season_without_matches_loses_nothing_elsewhere(impossible, plain_plan, usual_rules):
    weeks = [week.model_copy(update={"fixtures": ()}) for week in impossible.season.weeks]
    season = impossible.season.model_copy(update={"weeks": tuple(weeks)})

    (limit,) = limits(season, plain_plan(season), usual_rules)

    assert limit.most
    assert all(way.elsewhere is None for way in limit.most)


def taken(plan, way):
    name = "rungs" if way.step.kind == "band" else "doses"
    rows = [list(row) for row in getattr(plan, name)]
    for week in way.step.weeks:
        rows[way.step.quality][week] = way.value if name == "rungs" else Dose(way.value)
    return plan.model_copy(update={name: tuple(map(tuple, rows))})


def raised(plan, quality, week):
    doses = [list(row) for row in plan.doses]
    doses[quality][week] = Dose(doses[quality][week] + 1)
    return plan.model_copy(update={"doses": tuple(map(tuple, doses))})
