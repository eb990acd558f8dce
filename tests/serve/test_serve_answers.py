import urllib.error

import pytest
from click.testing import CliRunner
from serving import serving

from cli.commands.serve import _listen, serve_command
from cli.files.scenario_file import read_scenario

MOVE = {"edit": "move", "date": "2027-04-10", "to": "2027-04-14"}
CLOSE = {"edit": "close", "first": "2027-02-15", "last": "2027-02-21"}
SET = {"edit": "set", "rule": "load_ramp", "parameter": "percent", "value": 10}
CLASH = {"edit": "set", "rule": "session_caps", "parameter": "in_season.gym", "value": 0}


def dates(state):
    return [fixture["date"] for fixture in state["fixtures"]]


def test_a_moved_match_is_planned_anew_and_the_difference_told(served):
    status, at_once = served.post("edit", MOVE)
    later = served.settled()

    assert status == 200
    assert "2027-04-14" in dates(at_once)
    assert at_once["edits"] == ["Match of Sat 10 Apr moved to Wed 14 Apr"]
    assert not later["stale"]
    assert later["changes"]
    assert later["peaks"][0]["was"] is not None
    assert later["can_save"]


def test_a_week_can_be_closed_and_opened_again(served):
    served.post("edit", CLOSE)
    closed = served.settled()
    served.post("edit", {**CLOSE, "edit": "open"})
    opened = served.settled()

    assert closed["weeks"][2]["closed"]
    assert all(quality["cells"][2]["code"] == "" for quality in closed["qualities"])
    assert not opened["weeks"][2]["closed"]


def test_a_rules_parameter_can_be_changed(served):
    served.post("edit", SET)
    state = served.settled()

    rule = next(rule for rule in state["rules"] if rule["name"] == "load_ramp")
    assert {"name": "percent", "value": 10} in rule["parameters"]
    assert "10 %" in rule["words"]


def test_a_change_taken_back_leaves_the_season_as_on_file(served):
    before = served.state
    served.post("edit", MOVE)
    status, after = served.post("take-back", 0)

    assert status == 200
    assert dates(after) == dates(before)
    assert after["edits"] == after["changes"] == []
    assert after["solving"] is None


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        ({"edit": "move", "date": "2027-04-10", "to": "2027-04-17"}, "without a fixture"),
        ({"edit": "move", "date": "2027-04-10", "to": "2030-01-01"}, "in the season"),
        ({"edit": "move", "date": "2027-04-11", "to": "2027-04-12"}, "day of a fixture"),
        ({"edit": "close", "first": "2027-02-21", "last": "2027-02-15"}, "last must not"),
        ({**SET, "value": -5}, "percent"),
        ({**SET, "value": "a lot"}, "percent"),
        ({**SET, "rule": "magic"}, "name of a rule"),
        ({"edit": "explode"}, "must have an edit"),
        ({}, "must have an edit"),
        ([], "must have an edit"),
        (None, "must have an edit"),
    ],
)
def test_what_cannot_be_done_is_told_and_changes_nothing(served, edit, said):
    status, answer = served.post("edit", edit)

    assert status == 400
    assert said in answer["error"]
    assert served.state["edits"] == []


@pytest.mark.parametrize("body", [b"", b"{", b"\xff\xfe", b"[" * 5000])
def test_what_cannot_be_read_is_told(served, body):
    assert served.post("edit", body)[0] == 400


@pytest.mark.parametrize("index", [-1, 3, "x", None, 1.5e300])
def test_a_change_that_is_not_there_cannot_be_taken_back(served, index):
    assert served.post("take-back", index)[0] in (400, 409)


def test_rules_that_clash_are_named(served):
    served.post("edit", CLOSE)
    served.post("edit", CLASH)
    state = served.settled()

    assert state["stale"]
    assert "clash" in state["told"]
    assert "gym session" in state["told"].lower()
    assert not state["can_save"]


def test_nothing_is_saved_without_a_plan_for_it(served):
    served.post("edit", CLOSE)
    served.post("edit", CLASH)
    served.post("stop", None)
    before = served.scenario.read_text(encoding="utf-8")
    status, answer = served.post("save", None)

    assert status == 409
    assert "no plan" in answer["error"]
    assert served.scenario.read_text(encoding="utf-8") == before


def test_a_search_can_be_stopped(served):
    served.post("edit", MOVE)
    _, state = served.post("stop", None)

    assert state["solving"] is None
    assert state["stale"] == ("Stopped" in state["told"])


# --- who may ask ----------------------------------------------------------------------------


def test_only_this_machine_is_listened_to():
    with _listen(0) as listening:
        assert listening.getsockname()[0] == "127.0.0.1"


def test_a_page_of_elsewhere_that_points_here_is_refused(served):
    with pytest.raises(urllib.error.HTTPError) as refused:
        served.get(headers={"Host": "elsewhere.example"})
    refused.value.close()

    assert refused.value.code == 400


@pytest.mark.parametrize("headers", [{}, {"X-Page": "guess"}, {"X-Page": ""}])
def test_only_the_page_itself_may_change_anything(served, headers):
    status, _ = served.post("edit", MOVE, headers)

    assert status == 403
    assert served.state["edits"] == []


def test_a_change_of_any_length_is_not_read(served):
    assert served.post("edit", b" " * 30_000)[0] == 413


def test_a_port_that_is_taken_is_told(copied, tmp_path):
    scenario, plan = copied(tmp_path)
    with _listen(0) as listening:
        listening.listen()
        port = str(listening.getsockname()[1])
        result = CliRunner().invoke(
            serve_command, [str(scenario), "--plan", str(plan), "--port", port]
        )

    assert result.exit_code == 1
    assert f"port {port}" in result.stderr
    assert "--port" in result.stderr


# --- files ----------------------------------------------------------------------------------


def test_files_are_written_on_save_and_not_before(copied, tmp_path):
    scenario, plan = copied(tmp_path)
    text = scenario.read_text(encoding="utf-8")
    with serving(scenario, "--plan", str(plan)) as served:
        served.post("edit", MOVE)
        served.settled()
        unsaved = scenario.read_text(encoding="utf-8"), sorted(p.name for p in tmp_path.iterdir())
        status, state = served.post("save", None)

    assert unsaved == (text, ["plan.json", "season.toml"])
    assert status == 200
    assert state["edits"] == []
    days = [f.date.isoformat() for f in read_scenario(scenario).season.fixtures]
    assert "2027-04-14" in days
    assert "2027-04-10" not in days
    assert "# The least a season needs." in scenario.read_text(encoding="utf-8")
    assert (tmp_path / "season.plan.json").exists()


def test_what_somebody_else_wrote_meanwhile_is_not_written_over(copied, tmp_path):
    scenario, plan = copied(tmp_path)
    with serving(scenario, "--plan", str(plan)) as served:
        served.post("edit", MOVE)
        served.settled()
        with scenario.open("a", encoding="utf-8") as file:
            file.write("# mine\n")
        status, answer = served.post("save", None)

    assert status == 409
    assert "changed since" in answer["error"]
    assert scenario.read_text(encoding="utf-8").endswith("# mine\n")


def test_without_a_plan_one_is_searched_for_first(copied, tmp_path):
    scenario, _ = copied(tmp_path)
    with serving(scenario) as served:
        first = served.state
        status, answer = served.post("edit", MOVE)
        later = served.settled()

    assert first["solving"] is not None or first["can_save"]
    assert status in (200, 409), answer
    assert later["can_save"]
    assert all(quality["cells"][0]["code"] for quality in later["qualities"])
