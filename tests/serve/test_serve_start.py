"""From an empty page to a season folder that is planned."""

import datetime as dt
import json

import pytest
from serving import serving
from small_season import FIXTURES

from cli.files.errors import InputError
from cli.files.scenario_file import read_scenario
from cli.serve.desk import Desk
from cli.serve.drafting import Drafting, ListFile, Reading, Wish, safe_name
from cli.serve.places import demos, seasons

LIST = ListFile("my fixtures.csv", FIXTURES.encode())


def test_a_list_is_read_and_phases_and_priorities_proposed():
    found = Drafting(LIST).found(Reading())

    assert found["words"][0].startswith("my fixtures.csv: 4 rows: 4 matches")
    assert [match["priority"] for match in found["fixtures"]] == ["low", "medium", "low", "high"]
    assert [start["phase"] for start in found["starts"]] == [
        "off-season",
        "pre-season",
        "in-season",
    ]
    assert found["name"] == "Season 2027"


def test_matches_read_are_listed_by_date():
    head, *rows = FIXTURES.splitlines()
    mixed = ListFile("list.csv", "\n".join([head, *reversed(rows)]).encode())
    dates = [match["date"] for match in Drafting(mixed).found(Reading())["fixtures"]]

    assert len(dates) == 4
    assert dates == sorted(dates)


def test_the_season_made_is_as_wished(tmp_path):
    wish = Wish(
        name="Our year",
        sport="hockey",
        starts=({"phase": "pre-season", "first_week": 1}, {"phase": "in-season", "first_week": 5}),
        priorities={dt.date(2027, 4, 3): "peak"},
        practice={
            "in_season": {"days": ("tuesday", "thursday"), "time": dt.time(19), "minutes": 60}
        },
        latest=dt.time(18, 30),
    )
    path = Drafting(LIST).make(wish, tmp_path)
    scenario = read_scenario(path).scenario

    assert path == tmp_path / "Our year" / "season.toml"
    assert scenario.fixtures_file == "fixtures.csv"
    assert scenario.practice.in_season.minutes == 60
    assert scenario.practice.in_season.times == (dt.time(19),)
    assert scenario.rules["spacing"]["latest"] == "18:30"
    assert read_scenario(path).season.fixtures[-1].priority == "peak"
    with pytest.raises(InputError, match="new folder"):
        Drafting(LIST).make(wish, tmp_path)


def test_a_list_that_cannot_be_read_is_named_as_it_was_called():
    found = Drafting(ListFile("notes.csv", b"hello\n")).found(Reading())

    assert found["unread"].startswith("notes.csv, line 1: ")
    assert "fixtures" not in found


def test_what_a_list_leaves_out_is_asked_for_by_a_field_of_the_page():
    undated = Drafting(ListFile("list.csv", b"Date,Opponent\n5 Sep,Ashford\n9 Jan,Denholm\n"))
    asked, told = undated.found(Reading()), undated.found(Reading(year=2026))

    assert "It begins in the year" in asked["unread"]
    assert "--" not in asked["unread"]
    assert [match["date"] for match in told["fixtures"]] == ["2026-09-05", "2027-01-09"]


@pytest.mark.parametrize("name", ["../../etc/passwd", "/etc/passwd", "..", "a\x00b", "C:\\x\\y"])
def test_no_name_leads_out_of_the_folder(name, tmp_path):
    safe = safe_name(name, "season")

    assert (tmp_path / safe).resolve().parent == tmp_path.resolve()
    assert safe not in ("", ".", "..")


def test_seasons_of_a_directory_and_demo_seasons_are_listed(small, tmp_path):
    small(tmp_path / "club")
    (tmp_path / "other.toml").write_text("[tool]\n")

    assert [row["path"] for row in seasons(tmp_path)] == ["club/season.toml"]
    assert "minimal.toml" in [row["path"] for row in demos()]


def test_a_whole_first_season_from_an_empty_page(tmp_path):
    with serving("--in", tmp_path) as served:
        start = served.state
        _, read = served.post("list?name=list.csv", FIXTURES.encode())
        wish = {"name": "First", "reading": {"off_season": 0, "pre_season": 4}}
        status, state = served.post("do/make", {"wish": json.dumps(wish)})
        later = served.settled()
        _, away = served.post("do/away", {})

    assert start["place"] == "start"
    assert len(read["fixtures"]) == 4
    assert status == 200
    assert state["place"] == "season"
    assert later["told"].startswith("Saved plan.json")
    assert [each["action"] for each in later["versions"]] == ["saved", "begun"]
    assert (tmp_path / "First" / "plan.json").exists()
    assert away["seasons"][0]["planned"]


def test_another_season_on_the_desk_makes_older_tabs_stale(small, tmp_path):
    desk = Desk(tmp_path, lambda: dt.date(2027, 1, 1))
    try:
        desk.open(small(tmp_path / "a"))
        first = desk.session.revision
        desk.open(small(tmp_path / "b"))

        assert desk.session.revision > first
    finally:
        desk.close()


def test_a_squad_is_typed_in_or_handed_over_and_has_cards(tmp_path):
    Drafting(LIST).make(Wish(name="Club"), tmp_path)
    whole = "name,group,body_mass_kg,squat_1rm_kg\nDora Eck,starters,71,110\n"
    with serving(tmp_path / "Club") as served:
        served.settled()
        before = served.state["squad"]
        served.act("enlist", lines="Anna Berg, 64\nBea Carr\t58.5 kg\n", file="")
        typed = served.state["squad"]
        cards = served.get(f"export/cards?week=4&t={served.token}", raw=True)
        wrong, why = served.act("enlist", lines="Nobody", file="")
        served.act("enlist", lines="", file=whole)
        told = served.state

    squad = (tmp_path / "Club" / "squad.csv").read_text(encoding="utf-8")
    assert (before, typed, told["squad"]) == (0, 2, 1)
    assert cards.startswith(b"%PDF")
    assert wrong == 400
    assert "line 1: must be a name and a body mass" in why["error"]
    assert squad == whole
    assert told["versions"][0]["words"] == "a file"
