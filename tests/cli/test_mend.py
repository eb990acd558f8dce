import tomllib
from pathlib import Path

import pytest

from cli.files.errors import InputError
from cli.files.mend import mended_text
from cli.files.scenario_file import load_scenario
from optimiser.rule import Waiver

HEAD = """\
# The season of the ladies' first team.
name = "Brookmere Autumn"   # as in the club's calendar
first_monday = 2026-08-31
weeks = 8
fixtures = [ { date = 2026-10-17, opponent = "Ashby Vale" } ]
"""
GIVEN = [
    ("reentry", Waiver(week=2, quality="sprint", part="rung", by=2)),
    ("taper", Waiver(week=7, by=1)),
]
WAIVED = {
    "reentry": [{"week": 2, "quality": "sprint", "part": "rung", "by": 2}],
    "taper": [{"week": 7, "by": 1}],
}
LAYOUTS = {
    "no rules yet": "",
    "no line end": "[rules.pin]\nuse = false",
    "a table": "\n[rules.reentry]\nrung = 3   # our own\n",
    "a table of tables": "\n[rules]\n[rules.taper]\nkeep_bands = 3\n",
    "waivers as tables": "\n[[rules.reentry.waive]]\nweek = 1\nby = 1\n",
    "waivers in a list": "\n[rules.reentry]\nwaive = [ { week = 1, by = 1 } ]\n",
    "rules in one line": "\nrules = { reentry = { rung = 3 } }\n",
    "a rule in one line": "\n[rules]\nreentry = { rung = 3 } # kept\ntaper = { apart = 5 }\n",
    "dotted keys": "\nrules.reentry.rung = 3 # kept\n",
    "text that looks like a table": '\n[[breaks]]\nkind = "bye"\nfirst = 2026-09-07\n'
    'last = 2026-09-08\nnote = "[rules.taper]"\n',
}


@pytest.fixture
def season(tmp_path):
    def write(text, name="season.toml"):
        path = tmp_path / name
        path.write_bytes(text.encode())
        return load_scenario(text, path)

    return write


@pytest.mark.parametrize("layout", LAYOUTS)
def test_waivers_are_added_and_nothing_else_changes(season, layout, tmp_path):
    text = HEAD + LAYOUTS[layout]
    loaded = season(text)

    told = mended_text(loaded, GIVEN, ["A reason."], tmp_path / "new.toml")

    before, after = tomllib.loads(text), tomllib.loads(told)
    for rule, waivers in WAIVED.items():
        had = before.get("rules", {}).get(rule, {}).get("waive", [])
        assert after["rules"][rule].pop("waive") == had + waivers
        before.setdefault("rules", {}).setdefault(rule, {}).pop("waive", None)
    assert after == before


@pytest.mark.parametrize("layout", LAYOUTS)
def test_comments_stay(season, layout, tmp_path):
    text = HEAD + LAYOUTS[layout]

    told = mended_text(season(text), GIVEN, [], tmp_path / "new.toml")

    for comment in ("# The season of", "# as in the club's", "# our own", "# kept"):
        assert (comment in told) == (comment in text)


def test_lines_above_stay_as_they_are_and_the_reason_stands_over_what_is_added(season, tmp_path):
    text = HEAD + LAYOUTS["a table"]

    told = mended_text(season(text), GIVEN, ["Sprint restarts higher."], tmp_path / "new.toml")

    assert told.startswith(text)
    assert "\n# Sprint restarts higher.\n[[rules.reentry.waive]]\nweek = 2\n" in told


def test_line_ends_of_windows_stay(season, tmp_path):
    text = HEAD.replace("\n", "\r\n")

    told = mended_text(season(text), GIVEN, ["A reason."], tmp_path / "new.toml")

    assert told.count("\n") == told.count("\r\n")


def test_files_it_names_are_found_from_another_folder(tmp_path):
    (tmp_path / "here").mkdir()
    (tmp_path / "there").mkdir()
    (tmp_path / "here" / "matches.csv").write_text("date\n2026-10-17\n")
    text = (
        'name = "A"\nfirst_monday = 2026-08-31\nweeks = 8\nfixtures_file = "matches.csv" # list\n'
    )
    path = tmp_path / "here" / "season.toml"
    path.write_text(text)
    out = tmp_path / "there" / "new.toml"

    told = mended_text(load_scenario(text, path), GIVEN, [], out)

    assert 'fixtures_file = "../here/matches.csv" # list' in told
    assert load_scenario(told, out).season.fixtures == load_scenario(text, path).season.fixtures


def test_a_layout_that_cannot_be_added_to_is_refused_with_what_to_do(season, monkeypatch):
    monkeypatch.setattr("cli.files.mend._appended", lambda text, *_: text)
    monkeypatch.setattr("cli.files.mend._inserted", lambda text, *_: text + "[")

    with pytest.raises(InputError, match="Write the tables out"):
        mended_text(season(HEAD), GIVEN, [], Path("new.toml"))
