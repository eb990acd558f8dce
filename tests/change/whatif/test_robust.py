import json

import pytest
from click.testing import CliRunner

from cli.files.changes_file import Origin, changed_season
from cli.main import main
from optimiser.change.ceiling import match_ceiling
from optimiser.change.robust import Future, NoSharedPlanError, branch_week, chosen_before, hedge
from optimiser.domain.edits import Add, Set
from optimiser.domain.setup_error import SetupError
from optimiser.joint_model.effort import Settings
from optimiser.review.audit import audit_plan

FUTURES = """\
aim = "worst"
[[futures]]
name = "Out"
weight = 2
[[futures]]
name = "Through"
[[futures.edits]]
edit = "add"
date = 2026-10-07
opponent = "Loxley"
"""
QUICK = Settings(quick=True)


def future_of(loaded, name, share, *edits):
    changed = changed_season(loaded, name, edits, Origin("test"))
    return Future(name, share, changed.loaded.season, changed.rules)


@pytest.fixture(scope="module")
def futures(short):
    cup = Add(date="2026-10-07", opponent="Loxley")
    return [future_of(short, "Out", 2 / 3), future_of(short, "Through", 1 / 3, cup)]


@pytest.fixture(scope="module")
def hedged(futures):
    return hedge(futures, "weighted", branch_week(futures), QUICK, QUICK)


def test_futures_part_in_the_first_week_that_differs(futures):
    assert branch_week(futures) == 5


def test_they_may_be_known_to_part_earlier_and_not_later(futures):
    assert branch_week(futures, 3) == 3
    with pytest.raises(SetupError, match="at most 6"):
        branch_week(futures, 6)


def test_futures_that_differ_in_rules_alone_need_a_week(short):
    rules = [
        future_of(short, "a", 0.5),
        future_of(short, "b", 0.5, Set(rule="progression", parameter="up", value=2)),
    ]

    with pytest.raises(SetupError, match="add branch_week"):
        branch_week(rules)
    assert branch_week(rules, 2) == 2


def test_the_branches_share_every_choice_up_to_the_week_they_part(hedged):
    first, second = (chosen_before(branch.plan, hedged.branch_week) for branch in hedged.branches)

    assert first == second


def test_every_branch_keeps_every_rule_of_its_future(hedged):
    for branch in hedged.branches:
        assert audit_plan(branch.future.season, branch.plan, branch.future.rules) == []


def test_the_value_is_the_weighted_mean_and_the_bound_above_it(hedged):
    scores = [branch.match for branch in hedged.branches]

    assert hedged.value == pytest.approx(2 / 3 * scores[0] + 1 / 3 * scores[1])
    assert hedged.value <= hedged.bound <= 100
    assert hedged.gap == pytest.approx((hedged.bound - hedged.value) / hedged.bound)


def test_no_plan_exceeds_its_ceiling(hedged):
    for branch in hedged.branches:
        assert max(branch.match, branch.alone) <= branch.ceiling


def test_the_ceiling_falls_when_rules_leave_less_room(short, short_rules):
    fewer = [
        Set(rule="session_caps", parameter=f"{phase}.{place}", value=1)
        for phase in ("pre_season", "in_season")
        for place in ("field", "gym")
    ]
    tight = future_of(short, "tight", 1.0, *fewer)

    usual = match_ceiling(short.season, short_rules)
    least = match_ceiling(tight.season, tight.rules)

    assert least < usual - 0.2


def test_a_future_without_a_plan_is_named(short, futures):
    edits = [Set(rule="session_caps", parameter="pre_season.gym", value=0)]
    broken = future_of(short, "No gym", 0.1, *edits)

    with pytest.raises(NoSharedPlanError, match="No gym"):
        hedge([*futures, broken], "weighted", 3, QUICK, QUICK)


def test_the_command_gives_the_shared_weeks_and_saves_a_file_a_branch(short_file):
    folder = short_file.parent
    (folder / "futures.toml").write_text(FUTURES)

    result = CliRunner().invoke(
        main,
        ["plan", str(short_file), "--futures", str(folder / "futures.toml"),
         "--out", str(folder / "hedge.json"), "--format", "json"],
    )  # fmt: skip

    data = json.loads(result.stdout)
    saved = [json.loads((folder / f"hedge-{number}.json").read_text()) for number in (1, 2)]
    scores = [branch["match"] for branch in data["branches"]]
    assert result.exit_code == 0, result.output
    assert (data["aim"], data["branch_week"]) == ("worst", 6)
    assert data["value"] == min(scores)
    assert [each["match"]["score"] for each in saved] == scores


def test_a_branch_week_after_the_futures_part_is_told_with_its_line(short_file):
    path = short_file.parent / "late.toml"
    path.write_text(f"branch_week = 7\n{FUTURES}")

    result = CliRunner().invoke(main, ["plan", str(short_file), "--futures", str(path)])

    assert result.exit_code == 1
    assert "late.toml, line 1, branch_week: must be at most 6" in result.stderr
