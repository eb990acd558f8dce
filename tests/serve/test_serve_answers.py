import json
import socket
import urllib.error
import urllib.request
from urllib.parse import urlsplit

import pytest
from click.testing import CliRunner

from cli.commands.serve import _listen, serve_command

MOVE = {"edit": "move", "date": "2027-03-13", "to": "2027-03-10"}
CLOSE = {"edit": "close", "first": "2027-02-15", "last": "2027-02-21"}
SET = {"edit": "set", "rule": "load_ramp", "parameter": "percent", "value": 10}


def dates(state):
    return [fixture["date"] for fixture in state["fixtures"]]


def words(state):
    return [made["words"] for made in state["edits"]]


def test_a_moved_match_is_planned_anew_and_the_difference_told_in_a_sentence(served):
    status, at_once = served.edit(MOVE)
    later = served.settled()

    assert status == 200
    assert "2027-03-10" in dates(at_once)
    assert words(at_once) == ["Match of 2027-03-13 moved to 2027-03-10"]
    assert at_once["weeks"][5]["touched"]
    assert not later["stale"]
    assert later["peaks"][-1]["was"]["ready"] == later["before"]["weeks"][8]["ready"]
    assert later["peaks"][-1]["now"]["ready"] == later["weeks"][8]["ready"]
    assert later["headline"] == later["edits"][0]["did"]
    assert later["before"]["weeks"][5]["ready"] == later["weeks"][5]["was"]
    assert later["can_save"]


def test_no_difference_is_signed_that_the_searches_cannot_tell(served):
    served.edit(MOVE)
    state = served.settled()
    told = [peak["by"] for peak in state["peaks"] if peak["by"] is not None]

    assert all(abs(by) >= 0.05 for by in told)
    if not told:
        assert "than the searches can tell" in state["headline"]


def test_no_parameter_is_called_as_in_files(served):
    bare = [
        field["path"]
        for rule in served.state["rules"]
        for field in rule["fields"]
        for part in field["label"].split(": ")[:1]
        if part in (field["path"].split(".")[0], field["path"].split(".")[0].replace("_", " "))
    ]

    assert bare == []


def test_bars_and_cells_say_the_same_as_the_plan(served):
    state = served.state

    for quality in state["qualities"]:
        for bar in quality["bars"]:
            codes = {cell["code"] for cell in quality["cells"][bar["first"] - 1 : bar["last"]]}
            assert codes == {bar["code"]}
            assert bar["label"]


def test_a_weeks_closing_is_undone_done_again_and_taken_back_by_its_number(served):
    _, closed = served.edit(CLOSE)
    _, undone = served.act("undo")
    _, again = served.act("redo")
    number = again["edits"][0]["number"]
    _, back = served.act("take-back", number=number)

    assert closed["weeks"][2]["closed"]
    assert not undone["weeks"][2]["closed"]
    assert again["weeks"][2]["closed"]
    assert back["edits"] == []
    assert served.act("take-back", number=number)[0] == 409


def test_a_change_of_a_tab_that_shows_something_older_is_refused_with_words(served):
    before = served.state["revision"]
    served.edit(CLOSE)
    status, answer = served.post("do/edit", {"revision": before, "edits": [SET]})

    assert status == 409
    assert answer["stale"]
    assert "another tab" in answer["error"]
    assert len(served.state["edits"]) == 1


def test_a_rules_sentence_and_the_bounds_of_its_numbers_are_told(served):
    served.edit(SET)
    state = served.state
    rule = next(rule for rule in state["rules"] if rule["name"] == "load_ramp")
    field = next(field for field in rule["fields"] if field["path"] == "percent")

    assert "10 %" in rule["words"]
    assert (field["value"], field["usual"], field["least"], field["most"]) == (10, 20, 0, 200)
    assert words(state) == [
        "Weekly rise limit: most rise over the mean of the weeks before, per cent: 10"
    ]


def test_what_a_match_is_can_be_changed_and_one_taken_out_waits_for_a_date(served):
    changed = {"edit": "describe", "date": "2027-03-13", "opponent": "Elmstead", "kickoff": "12:30"}
    _, state = served.edit(changed, {"edit": "drop", "date": "2027-03-20"})
    match = next(each for each in state["fixtures"] if each["date"] == "2027-03-13")

    assert (match["opponent"], match["kickoff"], match["venue"]) == ("Elmstead", "12:30", "away")
    assert [each["name"] for each in state["undated"]] == ["Calder"]


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        ({"edit": "move", "date": "2027-03-13", "to": "2027-03-14"}, None),
        ({"edit": "move", "date": "2027-03-13", "to": "2027-03-21"}, "the day before"),
        ({"edit": "add", "date": "2027-04-04"}, "Denholm"),
        ({"edit": "close", "first": "2027-03-01", "last": "2027-03-07"}, "Ashford"),
        ({"edit": "drop", "date": "2027-04-03"}, "high match"),
    ],
)
def test_what_may_be_a_slip_is_asked_about_and_then_done(served, edit, said):
    status, answer = served.edit(edit)

    if said is None:
        assert status == 200
        return
    assert status == 422
    assert said in answer["doubts"][0]
    assert served.state["edits"] == []
    assert served.edit(edit, sure=True)[0] == 200


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        ({"edit": "move", "date": "2027-03-13", "to": "2027-03-20"}, "without a fixture"),
        ({"edit": "move", "date": "2027-03-13", "to": "2030-01-01"}, "in the season"),
        ({"edit": "move", "date": "2027-03-11", "to": "2027-03-12"}, "day of a fixture"),
        ({"edit": "close", "first": "2027-02-21", "last": "2027-02-15"}, "last must not"),
        ({**SET, "value": -5}, 'per cent" must'),
        ({**SET, "value": "a lot"}, 'per cent" must'),
        ({**SET, "rule": "magic"}, "name of a rule"),
        ({"edit": "explode"}, "must have an edit"),
        (None, "must have an edit"),
    ],
)
def test_what_cannot_be_done_is_told_and_changes_nothing(served, edit, said):
    status, answer = served.edit(edit)

    assert status == 400
    assert said in answer["error"]
    assert served.state["edits"] == []


@pytest.mark.parametrize("body", [b"", b"{", b"\xff\xfe", b"[" * 5000, b"[]", b"3"])
def test_what_cannot_be_read_is_told(served, body):
    assert served.post("do/edit", body)[0] == 400


@pytest.mark.parametrize(
    "edit",
    [
        {**SET, "value": 20},
        {"edit": "move", "date": "2027-03-13", "to": "2027-03-13"},
        {"edit": "add_rule", "rule": "taper"},
    ],
)
def test_what_is_so_already_is_told_and_not_planned_anew(served, edit):
    status, answer = served.edit(edit)

    assert status == 409
    assert "already" in answer["error"]
    assert served.state["solving"] is None


def test_work_and_reasons_of_a_cell_and_a_week_are_told(served):
    key = served.state["qualities"][0]["key"]
    cell = served.get(f"cell?week=4&quality={key}")
    week = served.get("week?number=4")

    assert '"work":["' in cell
    assert "that is why" in cell
    days = json.loads(week)["days"]
    idle = [day for day in days if not (day["sessions"] or day["practice"] or day["match"])]
    assert idle
    assert all(day["empty"] for day in idle)
    assert not any(day["empty"] for day in days if day not in idle)
    with pytest.raises(urllib.error.HTTPError) as refused:
        served.get("week?number=99")
    refused.value.close()
    assert refused.value.code == 409


def test_what_full_would_cost_is_answered_beside_the_plan(served):
    key = served.state["qualities"][0]["key"]
    status, _ = served.act("cost", week=4, quality=key, dose="full")
    answer = served.settled()["answer"]

    assert status == 200
    assert answer["about"] == f"cell 4 {key}"
    assert answer["lines"]


def test_rules_that_clash_are_named_and_a_repair_taken_gives_the_nearest_plan(served):
    caps = {"edit": "set", "rule": "session_caps", "parameter": "in_season.gym", "value": 0}
    served.edit(caps)
    clash = served.settled()
    _, mended = served.act("loosen", number=0)
    later = served.settled()

    assert clash["stale"]
    assert not clash["can_save"]
    assert "gym session" in " ".join(clash["clash"]["lines"]).lower()
    assert len(mended["edits"]) > 1
    assert later["clash"] is None
    assert not later["stale"]


def test_a_search_is_stopped_and_goes_on(served):
    served.edit(MOVE)
    _, stopped = served.act("stop")
    served.act("go-on")
    later = served.settled()

    assert stopped["solving"] is None
    assert not later["stale"]
    assert not later["provisional"]


def test_versions_kept_are_set_side_by_side_and_come_back_to(served):
    served.edit(MOVE)
    served.settled()
    served.act("keep", name="wednesday")
    served.act("all-back")
    _, state = served.act("use", name="wednesday")

    assert [each["name"] for each in state["kept"]] == ["On file", "wednesday"]
    assert len(state["edits"]) == 1
    assert state["solving"] is None
    assert served.act("forget", name="wednesday")[1]["kept"] == []


@pytest.mark.parametrize("kind", ["plan", "ics"])
def test_files_of_the_plan_shown_can_be_fetched(served, kind):
    with urllib.request.urlopen(f"{served.url}export/{kind}?t={served.token}") as answer:
        assert answer.status == 200
        assert len(answer.read()) > 500


# --- who may ask ----------------------------------------------------------------------------


def test_only_this_machine_is_listened_to():
    with _listen(0) as listening:
        assert listening.getsockname()[0] == "127.0.0.1"


def test_a_page_of_elsewhere_that_points_here_is_refused(served):
    with pytest.raises(urllib.error.HTTPError) as refused:
        served.get(headers={"Host": "elsewhere.example"})
    refused.value.close()

    assert refused.value.code == 400


@pytest.mark.parametrize("headers", [{}, {"X-Page": "guess"}, {"X-Page": ""}, {"X-Page": "é"}])
def test_only_the_page_itself_may_change_anything(served, headers):
    status, _ = served.post("do/edit", {"edits": [MOVE]}, headers)

    assert status == 403
    assert served.state["edits"] == []
    assert served.post("list?name=a.csv", b"date\n", headers)[0] == 403


def test_a_change_of_any_length_is_not_read(served):
    assert served.post("do/edit", b" " * 30_000)[0] == 413


@pytest.mark.parametrize(
    "head", ["Content-Length: many", "Content-Length: -1", "Transfer-Encoding: odd", "X-Page: \xff"]
)
def test_odd_headers_are_refused_and_no_mistake_of_the_server(served, head):
    place = urlsplit(served.url)
    with socket.create_connection((place.hostname, place.port)) as line:
        text = f"POST /do/edit HTTP/1.1\r\nHost: {place.netloc}\r\n{head}\r\nConnection: close\r\n"
        line.sendall(f"{text}\r\n{{}}".encode("latin-1"))
        answer = line.recv(200)

    assert answer.split()[1].startswith(b"4")


def test_a_port_that_is_taken_is_told(small, tmp_path):
    with _listen(0) as listening:
        port = str(listening.getsockname()[1])
        result = CliRunner().invoke(serve_command, [str(small(tmp_path)), "--port", port])

    assert result.exit_code == 1
    assert f"port {port}" in result.stderr
    assert "--port" in result.stderr


def test_breaks_of_any_kind_are_added_changed_and_taken_out(served):
    exams = {"kind": "exams", "first": "2027-02-08", "last": "2027-02-14"}
    served.edit({"edit": "add_break", **exams, "note": "Term ends", "sessions": 1})
    added = served.settled()
    twice, _ = served.edit({"edit": "add_break", **exams})
    again = {"edit": "add_break", **exams, "kind": "camp"}
    _, changed = served.edit({"edit": "drop_break", **exams}, again)
    missing, why = served.edit({"edit": "drop_break", **exams})

    told = {**exams, "note": "Term ends", "sessions": 1}
    assert added["weeks"][1]["breaks"] == [told]
    assert words(added) == ["Exams from 2027-02-08 to 2027-02-14 marked (Term ends)"]
    assert [item["kind"] for item in changed["weeks"][1]["breaks"]] == ["camp"]
    assert twice == missing == 400
    assert "must be a break of the season" in why["error"]


def test_an_empty_list_of_a_rule_gets_a_first_entry_and_a_place_is_let_off(served):
    before = {rule["name"]: rule for rule in served.state["rules"]}
    served.edit(
        {"edit": "set", "rule": "exposure", "parameter": "match_counts", "value": ["sprint"]}
    )
    school = {"edit": "set", "rule": "spacing", "parameter": "school", "value": ["09:00", "15:00"]}
    served.edit(school)
    ceiling = {"edit": "set", "rule": "budget", "parameter": "ceilings.contacts.in_season"}
    served.edit({**ceiling, "value": 80})
    _, late = served.edit({**school, "parameter": "latest", "value": "25:00"})
    let_off = {"edit": "set", "rule": "deload", "parameter": "waive", "value": [{"week": 4}]}
    _, state = served.edit(let_off)
    after = {rule["name"]: rule for rule in state["rules"]}

    def value(rules, rule, path):
        return next(each["value"] for each in rules[rule]["fields"] if each["path"] == path)

    assert late["error"].startswith('Days and hours: "Sessions start until" must be a time')
    assert value(before, "exposure", "match_counts") == []
    assert value(after, "exposure", "match_counts") == ["sprint"]
    assert value(after, "spacing", "school") == ["09:00", "15:00"]
    assert value(after, "budget", "ceilings.contacts.in_season") == 80
    assert value(after, "budget", "ceilings.contacts.off_season") == 100
    assert after["deload"]["waive"] == [{"week": 4, "by": 1}]
