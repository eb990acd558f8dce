import datetime as dt
import tomllib

import pytest

from cli.files.changes_file import Origin, changed_season
from cli.files.scenario_file import load_scenario, read_scenario
from cli.serve.save import saved_text
from optimiser.domain.changes import Close, Move, Open, Rank, RuleOff, Set

HEAD = """\
# A comment that must stay.
name = "Saved"
first_monday = 2027-02-01   # a Monday
weeks = 8
"""
INLINE = HEAD + 'fixtures = [\n  { date = 2027-03-06, opponent = "A", kickoff = 15:00:00 },\n]\n'
TABLES = HEAD + '[[fixtures]]\ndate = 2027-03-06\nopponent = "A"\n\n[match]\nrpe = 7\n'
FILE = HEAD + 'fixtures_file = "list.csv"\n[priorities]\n2027-03-06 = "high"\n\n[match]\nrpe = 7\n'
RULES = INLINE + "[rules.taper]\nuse = false\n\n[rules]\nload_ramp = { percent = 15 }\n"
DOTTED = INLINE.replace("weeks = 8", "weeks = 8\nrules.load_ramp.percent = 15")
BREAKS = INLINE + '[[breaks]]\nkind = "exams"\nfirst = 2027-02-08\nlast = 2027-02-20\n'
DAY, LATER = dt.date(2027, 3, 6), dt.date(2027, 3, 10)
EDITS = {
    "move": (Move(date=DAY, to=LATER),),
    "rank": (Rank(date=DAY, priority="medium"),),
    "close": (Close(first=dt.date(2027, 2, 1), last=dt.date(2027, 2, 7), note='"quoted"'),),
    "open": (Close(first=dt.date(2027, 2, 1), last=dt.date(2027, 2, 14)),
             Open(first=dt.date(2027, 2, 8), last=dt.date(2027, 2, 14))),
    "set": (Set(rule="load_ramp", parameter="percent", value=12),),
    "off": (RuleOff(rule="revisit"),),
    "all": (Move(date=DAY, to=LATER), Close(first=dt.date(2027, 2, 1), last=dt.date(2027, 2, 7)),
            Set(rule="load_ramp", parameter="percent", value=12)),
}  # fmt: skip


@pytest.mark.parametrize("edits", EDITS)
@pytest.mark.parametrize("layout", [INLINE, TABLES, FILE, RULES, DOTTED, BREAKS])
def test_every_layout_reads_back_as_the_changed_season(tmp_path, layout, edits):
    (tmp_path / "list.csv").write_text("date,opponent\n2027-03-06,A\n")
    path = tmp_path / "season.toml"
    path.write_text(layout)
    loaded = read_scenario(path)
    after = changed_season(loaded, "x", EDITS[edits], Origin("x", labels=("e",) * 3))

    text = saved_text(layout, loaded, after)

    assert load_scenario(text, path).digest == after.loaded.digest
    assert "# A comment that must stay." in text
    assert "# a Monday" in text


def test_only_what_was_changed_is_written(tmp_path):
    (tmp_path / "list.csv").write_text("date,opponent\n2027-03-06,A\n")
    path = tmp_path / "season.toml"
    path.write_text(FILE)
    loaded = read_scenario(path)
    after = changed_season(loaded, "x", EDITS["set"], Origin("x", labels=("e",)))
    table = tomllib.loads(saved_text(FILE, loaded, after))

    assert table["fixtures_file"] == "list.csv"
    assert table["rules"] == {"load_ramp": {"percent": 12}}
    assert "fixtures" not in table
