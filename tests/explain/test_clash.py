import pytest
from clashing import SEASONS, clashing

from optimiser.board.board import Board
from optimiser.engine.cp_sat_model import Treat, emit
from optimiser.engine.cp_sat_search import Effort, solver_for
from optimiser.explain.clash import Argument, argue, find_clash
from optimiser.explain.demand import key_of
from optimiser.explain.oracle import Clock
from optimiser.explain.soft_board import soft_board
from optimiser.review.audit import audit_plan

#: Rules that must be blamed; where there are several smallest clashes, those of all of them.
BLAMED = {
    "restart_at_the_top": {"reentry", "pin"},
    "too_steep": {"reentry", "blocks", "pin"},
    "no_deload": {"blocks", "deload", "pin"},
    "two_peaks": {"taper"},
    "crowded": {"congestion", "exposure"},
    "no_gym": {"session_caps", "exposure"},
    "no_foundation": {"foundation", "pin"},
    "budget": {"budget", "exposure"},
    "full_at_once": {"pin"},
    "work_in_rest": {"pin"},
    "heavy_taper": {"taper", "pin"},
    "step_down": {"taper", "blocks", "pin"},
    "light_season": {"phase_load"},
    "load_jump": {"load_ramp", "pin"},
}


# Where several causes clash, as how long a full dose takes hangs on its band.
SEVERAL = ("full_at_once", "heavy_taper", "load_jump")


def can_keep(season, rules, kept):
    """The slow and simple way: build everything again, with nothing but ``kept`` in force."""
    board, _ = soft_board(season, rules)
    out = emit(board.model, lambda tag: Treat.HARD if key_of(tag) in kept else Treat.DROPPED)
    solver = solver_for(Effort(deterministic=30.0))
    return {"OPTIMAL": True, "INFEASIBLE": False}[solver.status_name(solver.solve(out.cp))]


def test_every_cause_is_tried():
    assert set(BLAMED) == set(SEASONS)
    assert len(SEASONS) >= 10


@pytest.mark.parametrize("name", SEASONS)
def test_the_rules_that_clash_are_named_and_no_other(argued, name):
    _, finding = argued(name)

    clash = finding.clashes[0]
    assert finding.verdict == "clash"
    told = {demand.rule for demand in clash.demands}
    assert told >= BLAMED[name]
    assert told == BLAMED[name] or name in SEVERAL
    assert clash.minimal
    assert clash.confirmed


@pytest.mark.parametrize(
    "name", ["restart_at_the_top", "too_steep", "crowded", "no_gym", "budget", "heavy_taper"]
)
def test_a_slow_and_simple_check_finds_the_same_clash_and_needs_each_member(argued, name):
    argument, finding = argued(name)
    keys = set(finding.clashes[0].keys)

    assert not can_keep(argument.season, argument.rules, keys)
    for key in keys:
        assert can_keep(argument.season, argument.rules, keys - {key}), key


@pytest.mark.parametrize("name", ["restart_at_the_top", "too_steep", "two_peaks"])
def test_what_one_alone_would_have_to_give_is_just_enough(argued, name):
    argument, finding = argued(name)
    argument.clock = argument.oracle.clock = Clock(60)
    clash = finding.clashes[0]
    found = dict(zip(clash.keys, clash.alone, strict=True))

    for key, by in found.items():
        rest = [other for other in clash.keys if other != key]
        enough = argument.oracle.core(rest, loosened={key: by})
        assert enough.verdict == "possible", key
        assert argument.oracle.core(rest, loosened={key: by - 1}).verdict == "clash", key


def test_the_calendar_is_never_blamed(argued):
    for name in SEASONS:
        assert all(demand.rule != "rest" for demand in argued(name)[1].clashes[0].demands)


def test_further_clashes_share_nothing_with_the_first(argued):
    _, finding = argued("crowded")

    first, second = finding.clashes
    assert not set(first.keys) & set(second.keys)
    assert second.minimal


def test_a_season_with_one_clash_is_known_to_have_no_other(argued):
    _, finding = argued("two_peaks")

    assert len(finding.clashes) == 1
    assert not finding.more


def test_a_season_that_can_be_planned_comes_with_a_plan(minimal, usual_rules):
    finding = find_clash(minimal.season, usual_rules)

    assert finding.verdict == "possible"
    assert finding.clashes == ()
    assert audit_plan(minimal.season, finding.plan, usual_rules) == []


def test_a_rule_with_a_price_can_be_bought_off_and_is_not_blamed():
    loaded, rules = clashing("two_peaks")
    rules = [r.model_copy(update={"price": 5}) if r.name == "taper" else r for r in rules]

    assert find_clash(loaded.season, rules).verdict == "possible"


def test_every_question_is_on_record(argued):
    _, finding = argued("restart_at_the_top")

    kinds = [call.what for call in finding.calls]
    assert kinds[0] == "core"
    assert {"core", "kept", "confirm", "alone"} <= set(kinds)
    assert all(call.seconds >= 0 for call in finding.calls)


def test_without_time_nothing_is_claimed_that_does_not_hold():
    loaded, rules = clashing("no_deload")
    argument = Argument(loaded.season, rules, Clock(0))

    finding = argue(argument)

    assert finding.verdict in ("unknown", "clash")
    # what the first questions settle at once may be claimed, and is then so
    patient = Argument(loaded.season, rules)
    for clash in (clash for clash in finding.clashes if clash.minimal):
        assert patient.oracle.core(clash.keys).verdict == "clash"
        for left in clash.keys:
            rest = [key for key in clash.keys if key != left]
            assert patient.oracle.core(rest).verdict == "possible"


def test_the_board_reads_what_the_questions_answer(argued):
    argument, _ = argued("two_peaks")
    kept = [key for key in argument.oracle.keys if key.part != "apart"]

    plan = argument.board.read(argument.oracle.core(kept).values)

    assert isinstance(argument.board, Board)
    broken = audit_plan(argument.season, plan, argument.rules)
    assert {(breach.rule, breach.part) for breach in broken} == {("taper", "apart")}
