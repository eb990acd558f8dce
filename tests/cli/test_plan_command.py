import csv
import io
import json

import pytest
from click.testing import CliRunner

import cli.solving
from cli.files.plan_file import read_plan
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import main
from optimiser.domain.document import PlanDocument, to_plan
from optimiser.engine.cp_sat_search import Found
from optimiser.joint_model.drive import Progress
from optimiser.joint_model.solve import Outcome
from optimiser.joint_model.verdict import judged
from optimiser.review.audit import audit_plan

SHORT = """\
name = "Brookmere Autumn"
first_monday = 2026-08-31
weeks = 7
fixtures = [ { date = 2026-10-03, opponent = "Tolland" },
             { date = 2026-10-17, opponent = "Ashby Vale", priority = "high" } ]
"""
CLASHING = """
[rules.pin]
choices = [ { week = 1, quality = "sprint", band = "S5" } ]
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    made = tmp_path_factory.mktemp("seasons")
    (made / "short.toml").write_text(SHORT)
    (made / "clash.toml").write_text(SHORT + CLASHING)
    return made


def run(command, *arguments):
    return CliRunner().invoke(main, [command, *map(str, arguments)])


@pytest.fixture(scope="module")
def planned(folder):
    """One search, its table printed and its plan saved."""
    result = run("plan", folder / "short.toml", "--out", folder / "plan.json")
    assert result.exit_code == 0, result.output
    return result


@pytest.fixture(scope="module")
def document(folder, planned):
    return json.loads((folder / "plan.json").read_text())


def test_the_table_has_the_plan_what_limits_it_and_care_once(planned):
    text = planned.stdout

    assert text.startswith("A POOR PLAN: ")
    assert "\n\nBrookmere Autumn: 7 weeks from 2026-08-31, 2 matches\n" in text
    assert "What limits the plan most:" in text or "within a point of its target" in text
    assert text.count("Care:") == 1


def test_what_was_written_is_told_beside_the_results(folder, planned):
    assert planned.stderr == f"Wrote {folder / 'plan.json'}.\n"


def test_the_saved_plan_is_whole_and_proven(document):
    assert document["format"] == "seasonwright.plan/1"
    assert [week["week"] for week in document["weeks"]] == list(range(1, 8))
    assert document["status"] == document["season"]["status"]
    assert document["season"]["gap"] <= 0.01
    assert document["breaches"] == []
    assert document["versions"]["ortools"].startswith("9.")


def test_a_proof_that_another_solver_confirms_is_told_so(folder, planned):
    told = run("plan", folder / "short.toml", "--prove", "--certify")

    assert "Proven best: no plan that keeps these rules costs less. Another solver" in told.stdout
    assert "Another solver" not in planned.stdout


def test_the_same_seed_gives_the_same_plan_as_json_on_stdout(folder, document):
    again = json.loads(run("plan", folder / "short.toml", "--format", "json").stdout)

    assert again["weeks"] == document["weeks"]


def test_csv_has_a_row_a_week_and_quality_of_the_weeks_asked_for(folder):
    result = run("plan", folder / "short.toml", "--format", "csv", "--from", 2, "--to", 3)

    rows = list(csv.DictReader(io.StringIO(result.stdout)))
    assert list(rows[0])[:5] == ["week", "monday", "quality", "band", "dose"]
    assert [row["week"] for row in rows] == ["2"] * 6 + ["3"] * 6


def test_a_plan_saved_as_csv_is_whole_and_reads_back(folder, planned, document, tmp_path):
    run("plan", folder / "short.toml", "--out", tmp_path / "plan.csv", "--to", 1, "--ascii")

    told = run("audit", folder / "short.toml", tmp_path / "plan.csv", "--no-optimum")
    assert "No rule is broken." in told.stdout
    assert f"Match score {document['match']['score']:.1f}" in told.stdout


def test_plain_signs_on_request(folder):
    assert run("plan", folder / "short.toml", "--ascii").stdout.isascii()


def test_rules_that_clash_end_with_the_nearest_plan_marked_and_exit_code_three(folder, tmp_path):
    saved = tmp_path / "plan.json"

    result = run("plan", folder / "clash.toml", "--out", saved)

    assert result.exit_code == 3
    assert "the rules clash, and no plan keeps them all" in result.stderr
    assert "This is the nearest one; it gives up:" in result.stdout
    document = PlanDocument.model_validate_json(saved.read_text())
    assert document.concessions
    for each in document.concessions:
        assert each.words in " ".join(result.stdout.split())
    loaded = read_scenario(folder / "clash.toml")
    broken = audit_plan(loaded.season, *_plan_of(document, loaded))
    places = {(breach.rule, breach.quality) for breach in broken}
    assert places == {(each.rule, each.quality) for each in document.concessions}
    assert document.season.bound <= document.season.cost
    assert "no plan that gives up as little" in result.stdout.lower()


def _plan_of(document, loaded):
    return to_plan(document, loaded.season), read_rules(loaded)


def test_the_page_of_a_nearest_plan_says_what_it_gives_up(folder, tmp_path):
    scenario, saved = folder / "clash.toml", tmp_path / "plan.json"
    run("plan", scenario, "--out", saved)

    told = run("report", scenario, saved, "--html", "-o", tmp_path / "pages")

    assert told.exit_code == 0, told.output
    page = (tmp_path / "pages" / "report.html").read_text(encoding="utf-8")
    assert "What this plan gives up" in page
    for each in PlanDocument.model_validate_json(saved.read_text()).concessions:
        assert each.words in page


def test_strict_gives_no_nearest_plan(folder, tmp_path):
    result = run("plan", folder / "clash.toml", "--strict", "--out", tmp_path / "plan.json")

    assert result.exit_code == 3
    assert result.stdout == ""
    assert not (tmp_path / "plan.json").exists()


def test_no_plan_in_time_is_exit_code_four_and_never_called_a_clash(folder, monkeypatch):
    late = Outcome("out_of_time", None, None, 1.0)
    monkeypatch.setattr(cli.solving, "solve_season", lambda *_, **__: late)

    result = run("plan", folder / "short.toml")

    assert result.exit_code == 4
    assert "time ran out" in result.stderr
    assert "clash" not in result.stderr


def test_ctrl_c_saves_and_prints_the_best_plan_so_far(folder, planned, monkeypatch, tmp_path):
    loaded = read_scenario(folder / "short.toml")
    first = read_plan(folder / "plan.json", loaded, [])

    def interrupted(season, rules, settings, watch):
        watch(Progress(1.0, 10, 5))
        found = Found("feasible", [1], None, 0.0, 1.0, 0.0, cut_short=True)
        verdict = judged(season, rules, first, found, settings.rates, settings.close)
        return Outcome("planned", first, verdict, 1.0, stopped=True)

    monkeypatch.setattr(cli.solving, "solve_season", interrupted)

    result = run("plan", folder / "short.toml", "--out", tmp_path / "plan.json")

    assert result.exit_code == 0
    assert "Stopped by hand" in result.stderr
    assert read_plan(tmp_path / "plan.json", loaded, []) == first
    told = json.loads((tmp_path / "plan.json").read_text())
    assert (told["status"], told["season"]["decided_by"]) == ("stopped", "hand")


def test_ctrl_c_before_there_is_a_plan_ends_quietly(folder, monkeypatch):
    def interrupted(*_, **__):
        raise KeyboardInterrupt

    monkeypatch.setattr(cli.solving, "solve_season", interrupted)

    result = run("plan", folder / "short.toml")

    assert (result.exit_code, result.stdout, result.stderr.strip()) == (130, "", "Stopped.")


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (["--from", "9"], 2, "must be 1 to 7"),
        (["--from", "3", "--to", "2"], 2, "must not come before"),
        (["--out", "plan.doc"], 2, "must end in .json or .csv"),
        (["--out", "none/there/plan.json"], 1, "must be in a folder that is there"),
        (["--seconds", "0"], 2, "--seconds"),
        (["--seed", "-1"], 2, "--seed"),
    ],
)
def test_options_that_cannot_be_are_refused_before_the_search(folder, options, code, said):
    result = run("plan", folder / "short.toml", *options)

    assert result.exit_code == code
    assert said in result.stderr


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ("[rules.taper]\nreference = 99", "line 7, rules.taper.reference: must be at most"),
        ("[rules.tapper]", "line 6, rules.tapper: must be the name of a rule"),
        ("[rules.taper]\nrefrence = 2", "line 7, rules.taper.refrence: is not a key"),
        ("[rules.taper]\nuse = 'no'", 'line 7, rules.taper.use: must be true or false (got "no")'),
        ("[rules.pin]\nchoices = [{week = 9, quality = 'sprint', dose = 'full'}]", "week must be"),
        ("[rules.blocks]\nshortest = 7\nlongest = 4", "shortest must not pass longest"),
    ],
)
def test_a_rule_that_cannot_be_used_is_named_by_its_line(tmp_path, table, said):
    path = tmp_path / "bad.toml"
    path.write_text(SHORT + table + "\n")

    result = run("plan", path)

    assert result.exit_code == 1
    assert said in result.stderr


# --- audit ----------------------------------------------------------------------------------


def test_an_audit_compares_with_the_best_plan(folder, planned):
    result = run("audit", folder / "short.toml", folder / "plan.json")

    assert result.exit_code == 0
    assert "No rule is broken." in result.stdout
    assert "Our plan for the season is as good as this one. Match score" in result.stdout
    assert "\nNo plan that keeps" in result.stdout or "\nProven best" in result.stdout


def test_an_audit_as_json_has_the_plan_and_how_far_the_best_is_ahead(folder, document):
    worse = json.loads(json.dumps(document))
    for part in worse["weeks"][5]["qualities"].values():
        part["dose"] = "none"
    (folder / "worse.json").write_text(json.dumps(worse))

    told = json.loads(
        run("audit", folder / "short.toml", folder / "worse.json", "--format", "json").stdout
    )

    assert told["format"] == "seasonwright.audit/1"
    assert told["best"]["ahead"] > 0
    assert {"structure", "exposure"} <= {breach["rule"] for breach in told["plan"]["breaches"]}


def test_an_audit_lists_breaches_in_words(folder, document):
    wrong = json.loads(json.dumps(document))
    for week in wrong["weeks"]:
        for part in week["qualities"].values():
            part["dose"] = "full"
    (folder / "wrong.json").write_text(json.dumps(wrong))

    text = run("audit", folder / "short.toml", folder / "wrong.json", "--no-optimum").stdout

    assert "  taper !: taper week 6 has" in text
    assert text.splitlines()[1].startswith("NOT FIT TO USE: ")


def test_a_plan_of_another_scenario_is_refused_unless_asked_for(folder, planned, tmp_path):
    other = tmp_path / "other.toml"
    other.write_text(SHORT.replace("2026-10-03", "2026-10-04"))

    refused = run("audit", other, folder / "plan.json", "--no-optimum")
    taken = run("audit", other, folder / "plan.json", "--no-optimum", "--other-season")

    assert refused.exit_code == 1
    assert "with --other-season" in refused.stderr
    assert taken.exit_code == 0


def test_a_wrecked_last_week_is_said_first(folder, planned):
    document = json.loads((folder / "plan.json").read_text())
    last = next(week for week in reversed(document["weeks"]) if week["sessions"]["field"])
    last["sessions"] = {"field": 4, "gym": 4}
    for part in last["qualities"].values():
        part["dose"] = "full"
    (folder / "wrecked.json").write_text(json.dumps(document))

    result = run("audit", folder / "short.toml", folder / "wrecked.json")

    _, verdict, worst, *_ = result.stdout.splitlines()
    assert result.exit_code == 1
    assert "of them of rules that keep people safe" in verdict
    assert worst.startswith("Worst: ")
    assert " !: " in worst
    suffers = result.stdout.split("Matches that suffer:\n")[1].splitlines()[0]
    assert f"week {last['week']:>2}" in suffers
    assert result.stdout.index("NOT FIT TO USE") < result.stdout.index("Match score")


def test_an_audit_where_rules_clash_still_lists_breaches(folder, planned):
    result = run("audit", folder / "clash.toml", folder / "plan.json", "--other-season")

    assert result.exit_code == 1
    assert "is not on band S5" in result.stdout
    assert "the rules clash" in result.stderr


@pytest.mark.parametrize(
    ("options", "seconds", "close"),
    [
        ((), 600.0, 0.01),
        (("--prove",), 600.0, 0.0),
        (("--prove", "--seconds", "90"), 90.0, 0.0),
    ],
)
def test_to_prove_is_to_search_until_nothing_better_can_exist(
    folder, monkeypatch, options, seconds, close
):
    asked = []

    def watched(season, rules, settings, *, watch):
        asked.append(settings)
        return Outcome("out_of_time", None, None, 0.0)

    monkeypatch.setattr(cli.solving, "solve_season", watched)
    run("plan", folder / "short.toml", *options)

    assert [(each.seconds, each.close) for each in asked] == [(seconds, close)]
