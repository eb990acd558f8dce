import pytest
from made_seasons import assert_agrees, audit_excess, make_plan, make_season
from pydantic import ValidationError

from constraints.blocks import Blocks
from optimiser.domain.season import Phase
from optimiser.rule import Waiver

THREE_TO_FIVE = Blocks(shortest=3, longest=5)


def _plan(season, starts):
    blocks, weeks = len(starts), len(season.weeks)
    return make_plan(season, starts, [[0] * blocks] * 2, [[1] * weeks] * 2)


def test_reports_the_first_week_and_the_weeks_too_many():
    season = make_season(11)
    plan = _plan(season, [0, 7])

    assert audit_excess(THREE_TO_FIVE, plan, season) == {
        (0, None, "length", "weeks"): 2,
    }
    assert_agrees(THREE_TO_FIVE, plan, season)


def test_reports_a_short_block_with_the_weeks_it_lacks():
    season = make_season(10)
    plan = _plan(season, [0, 1, 5, 8])

    assert [(b.week, b.excess) for b in THREE_TO_FIVE.audit(plan, season)] == [(0, 2), (8, 1)]
    assert_agrees(THREE_TO_FIVE, plan, season)


@pytest.mark.parametrize("lengths", [[3, 5], [5, 3], [4, 4]])
def test_both_ends_of_the_range_are_allowed(lengths):
    season = make_season(8)
    plan = _plan(season, [0, lengths[0]])

    assert THREE_TO_FIVE.audit(plan, season) == []
    assert_agrees(THREE_TO_FIVE, plan, season)


def test_a_stretch_cut_off_by_closed_weeks_may_be_one_short_block():
    season = make_season(8, closed=(2, 5))
    plan = _plan(season, [0, 3, 6])

    assert THREE_TO_FIVE.audit(plan, season) == []
    assert_agrees(THREE_TO_FIVE, plan, season)


def test_half_of_a_short_stretch_may_not_be_a_block():
    season = make_season(6, closed=(2,))
    plan = _plan(season, [0, 1, 3])

    assert [(b.week, b.excess) for b in THREE_TO_FIVE.audit(plan, season)] == [(0, 1), (1, 1)]
    assert_agrees(THREE_TO_FIVE, plan, season)


@pytest.mark.parametrize(
    ("weeks", "longest", "least"), [(5, 4, 2), (7, 4, 3), (2, 5, 2), (8, 5, 3)]
)
def test_a_stretch_that_cannot_be_cut_has_blocks_as_even_as_they_go(weeks, longest, least):
    season = make_season(weeks)
    rule = Blocks(shortest=3, longest=longest)
    cut, uneven = _plan(season, _evenly(weeks, longest)), _plan(season, [0, 1])

    assert rule.audit(cut, season) == []
    assert rule.audit(uneven, season)[0].excess == least - 1
    assert_agrees(rule, cut, season)
    assert_agrees(rule, uneven, season)


def _evenly(weeks, longest):
    blocks = -(-weeks // longest)
    return [weeks * block // blocks for block in range(blocks)]


def test_a_short_phase_may_be_one_block_and_no_block_crosses_its_borders():
    phases = (Phase.OFF, Phase.OFF, Phase.PRE, *[Phase.IN] * 3)
    season = make_season(6, phases=phases)
    kept, crossed = _plan(season, [0, 2, 3]), _plan(season, [0, 4])

    assert THREE_TO_FIVE.audit(kept, season) == []
    assert [(b.week, b.part, b.excess) for b in THREE_TO_FIVE.audit(crossed, season)] == [
        (0, "border", 2),
        (4, "length", 1),
    ]
    assert_agrees(THREE_TO_FIVE, kept, season)
    assert_agrees(THREE_TO_FIVE, crossed, season)


def test_a_season_of_one_week_is_one_block():
    season = make_season(1)
    plan = _plan(season, [0])

    assert THREE_TO_FIVE.audit(plan, season) == []
    assert_agrees(THREE_TO_FIVE, plan, season)


def test_a_waiver_belongs_to_the_week_in_which_the_block_starts():
    season = make_season(9)
    rule = THREE_TO_FIVE.model_copy(update={"waive": (Waiver(week=3, part="length", by=1),)})
    plan = _plan(season, [0, 2])

    assert [(b.week, b.excess) for b in rule.audit(plan, season)] == [(0, 1), (2, 1)]
    assert_agrees(rule, plan, season)


def test_shortest_above_longest_is_refused():
    with pytest.raises(ValidationError, match="shortest must not pass longest"):
        Blocks(shortest=5, longest=4)


def test_a_block_that_is_to_begin_in_a_week_may_not_run_across_it():
    season = make_season(8)
    rule = Blocks(begin=(5,), go_on=(4,))
    kept, moved = _plan(season, [0, 4]), _plan(season, [0, 3])

    assert rule.audit(kept, season) == []
    assert audit_excess(rule, moved, season) == {
        (3, None, "go_on", "borders"): 1,
        (4, None, "begin", "borders"): 1,
    }
    assert_agrees(rule, kept, season)
    assert_agrees(rule, moved, season)
    assert "A block begins in week 5. None begins in week 4." in rule.words()


def test_a_week_cannot_both_begin_a_block_and_not():
    with pytest.raises(ValueError, match="week 3"):
        Blocks(begin=(3,), go_on=(3,)).check(make_season(8))
