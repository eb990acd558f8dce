import pytest

from optimiser.board.outline import Arc
from optimiser.change.freeze import freeze, past_blocks
from optimiser.domain.quality import Dose
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.review.audit import structure
from tests.done_days import lived_after, record

EFFORT = Effort(deterministic=10.0)


def solved(frozen):
    found = minimise(frozen.board.model, EFFORT)
    return frozen.board.read(found.values) if found.values else None


def same_past(a, b, weeks):
    rows = zip((*a.rungs, *a.doses, a.field, a.gym), (*b.rungs, *b.doses, b.field, b.gym),
               strict=True)  # fmt: skip
    return all(left[:weeks] == right[:weeks] for left, right in rows)


@pytest.mark.parametrize("weeks", [1, 5, 13, 14])
def test_decided_weeks_stand_and_the_rest_is_open(season, rules, plan, weeks):
    found = solved(freeze(season, rules, plan, weeks))

    assert found is not None
    assert same_past(found, plan, weeks)


def test_nothing_decided_is_the_board_of_the_season(season, rules, plan):
    frozen = freeze(season, rules, plan, 0)

    assert (frozen.weeks, frozen.lost) == (0, ())


def test_what_history_broke_does_not_stop_the_rest(season, rules, plain_plan):
    done = plain_plan(season, rung=4, dose=Dose.FULL, length=1)
    wild = lived_after(season, done, 5).plan
    frozen = freeze(season, rules, wild, 5, give_way=True)

    found = solved(frozen)

    assert found is not None
    assert same_past(found, wild, 5)
    assert "foundation" in {tag.rule for tag in frozen.lost}
    assert [b for b in structure(season, found) if (b.week or 0) >= 5] == []


def test_a_band_changed_inside_a_block_splits_it(season, plan):
    start = next(block.start for block in plan.blocks() if len(block) > 2)
    other = season.qualities[0].bands[(plan.rungs[0][start] or 0) + 1].code
    done = record(season, start + 1, "sprint", dose="full", band=other)

    past = lived_after(season, plan, start + 3, [done]).plan

    blocks = past_blocks(season, past, start + 3)
    assert [b for b in blocks if b.start >= start] == [
        range(start, start + 1), range(start + 1, start + 2), range(start + 2, start + 3),
    ]  # fmt: skip


def test_a_block_under_way_may_end_or_go_on(season, rules, plan):
    block = next(block for block in plan.blocks() if len(block) >= 4)
    weeks = block.start + 3

    frozen = freeze(season, rules, plan, weeks)

    ways = {arc for arc in frozen.board.arcs if arc.start == block.start}
    assert {arc.stop for arc in ways} >= {weeks, weeks + 1}
    assert all(arc.stop >= weeks for arc in ways)
    assert Arc(block.start, 2) not in ways
