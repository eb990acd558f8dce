"""One invented season from its first week to its last: nothing is lost and no past is changed."""

import datetime as dt
import json

import pytest

from cli.season.folder import Folder
from tests.season.conftest import invoke

FIRST = dt.date(2027, 1, 4)
WEEKS = 18
FINAL, POSTPONED = "2027-05-01", "2027-05-05"
SQUAD = """\
name,group,body_mass_kg,age,cleared,squat_1rm_kg
Aune,squad,70,24,,120
Birk,squad,82,27,,150
Cai,returning,77,22,yes,130
"""
LEAGUE = [FIRST + dt.timedelta(days=5 + 7 * week) for week in range(6, 16, 2)]


def fixtures():
    rows = [f"{day};15:00;League {number};low;home" for number, day in enumerate(LEAGUE, 1)]
    return "\n".join(["date;kickoff;opponent;priority;bus", *rows, f"{FINAL};15:00;Final;high;"])


class Club:
    """A season folder, and what must never change in it."""

    def __init__(self, path):
        self.folder, self.lines, self.past = Folder(path), [], {}

    def run(self, week, name, *options, code=0):
        """Run a command on the Monday after so many weeks; what is over must stand."""
        today = FIRST + dt.timedelta(weeks=week)
        result = invoke(name, self.folder.path, "--today", today, *options)
        assert result.exit_code == code, f"{name} {options}: {result.output}"
        self.check(week)
        return result

    def record(self, week, *options):
        """Record something of the week that has just ended."""
        day = FIRST + dt.timedelta(days=7 * week - 5)
        self.run(week, "done", "--date", day, *options)
        self.lines.append(self.folder.done.read_text().splitlines()[-1])

    def check(self, week):
        """Compare what is over with what it was when it was first over."""
        text = self.folder.done.read_text()
        assert all(line in text for line in self.lines)
        if not self.folder.plan.exists():
            return
        weeks = json.loads(self.folder.plan.read_text())["weeks"]
        for number in range(week):
            cells = {key: (q["band"], q["dose"]) for key, q in weeks[number]["qualities"].items()}
            assert self.past.setdefault(number, cells) == cells, f"week {number + 1} changed"


@pytest.fixture(scope="module")
def club(tmp_path_factory):
    """The season after all that happened in it; each step asserts what it must leave."""
    root = tmp_path_factory.mktemp("lived")
    (root / "list.csv").write_text(fixtures())
    made = invoke(
        "new", "--fixtures", root / "list.csv", "-o", root / "club", "--first-monday", FIRST,
        "--weeks", WEEKS, "--off-season-weeks", 0,
    )  # fmt: skip
    assert made.exit_code == 0, made.output
    club = Club(root / "club")
    (club.folder.path / "squad.csv").write_text(SQUAD)
    club.run(0, "plan")
    pre_season(club, root)
    cup_run(club)
    postponed_final(club)
    last_weeks(club)
    return club


def pre_season(club, root):
    """Weeks 1 to 5: usual work, sheets of athletes, and an illness that costs two weeks."""
    for week in (1, 2):
        club.record(week, "--what", "sprint", "--minutes", 20, "--rpe", 7)
    sheet = root / "rpe.csv"
    rows = [
        f"{FIRST + dt.timedelta(days=15)},{who},{minutes},{rpe}"
        for who, minutes, rpe in (("Aune", 80, 6), ("Birk", 75, 7), ("Cai", 30, 3))
    ]
    sheet.write_text("\n".join(["Day,Player,Length,Rating", *rows]))
    heads = ("date=Day", "who=Player", "minutes=Length", "rpe=Rating")
    spoken = [option for pair in heads for option in ("--map", pair)]
    club.run(3, "done", "--import", sheet, "--what", "practice", *spoken)
    for week in (4, 5):
        for quality in ("sprint", "power", "max_strength"):
            club.record(week, "--what", quality, "--dose", "missed")
    away = "Birk,2027-01-28,2027-02-20,out,,\n"
    there = club.folder.path / "availability.csv"
    there.write_text(there.read_text() + away)
    told = club.run(5, "replan", "--apply", "A").stdout
    assert "Done otherwise than planned" in told
    club.run(5, "audit", "--no-optimum")
    club.run(5, "week", "--week", 6)
    cards = club.run(5, "cards", "--week", 6).stdout
    assert all(name in cards for name in ("Aune", "Birk", "Cai"))


def cup_run(club):
    """Weeks 6 to 9: two more matches, while somebody else edits the list."""
    club.record(6, "--what", "practice", "--minutes", 200, "--rpe", 6)
    rows = club.folder.path / "fixtures.csv"
    rows.write_text(rows.read_text().replace("League 3;low;home", "League 3;low;away"))
    cup = ("--add", "2027-03-10:medium:Cup one", "--add", "2027-03-17:medium:Cup two")
    club.run(7, "replan", *cup, "--apply", "A")
    text = rows.read_text()
    assert "League 3;low;away" in text
    assert "2027-03-10;;Cup one;medium;" in text
    club.run(7, "done", "--athlete", "all")
    club.run(8, "why", "--week", 10)


def postponed_final(club):
    """Weeks 10 to 13: the final is moved, taken back, and moved after all."""
    before = club.folder.now(club.folder.deciding())
    club.run(11, "whatif", "--move", f"{FINAL}={POSTPONED}", "--apply")
    club.run(11, "undo")
    assert club.folder.now(club.folder.deciding()) == before
    club.run(11, "redo")
    assert f"{POSTPONED};15:00;Final;high;" in (club.folder.path / "fixtures.csv").read_text()
    club.record(12, "--what", "match", "--minutes", 95, "--rpe", 9)
    club.run(12, "versions", "--name", "the final on Wednesday")
    club.run(12, "audit", "--no-optimum")


def last_weeks(club):
    """Weeks 14 to 18: too much in one week, a last plan, and the season over."""
    club.record(14, "--what", "sprint", "--minutes", 60, "--rpe", 9)
    club.run(14, "replan", "--apply", "A")
    club.run(15, "report", "--html", "-o", club.folder.path / "out")
    club.run(18, "done")
    club.run(18, "audit", "--no-optimum")
    over = club.run(18, "replan", code=1)
    assert "must have a week that is not over yet" in over.stderr


def test_every_version_can_be_told_apart_and_put_back(club):
    plan = club.folder.plan.read_bytes()

    listed = club.run(18, "versions").stdout
    club.run(18, "versions", "--compare", 2, 9)
    club.run(18, "versions", "--restore", 3)
    club.run(18, "undo")

    assert listed.count("replan") == 3
    assert "the final on Wednesday" in listed
    assert "by hand" in listed
    assert club.folder.plan.read_bytes() == plan


def test_what_was_done_stands_against_what_was_planned_at_first(club):
    told = json.loads(club.run(18, "done", "--format", "json").stdout)

    weeks = told["weeks"]
    assert len(weeks) == WEEKS
    assert {"power", "max_strength"} <= set(weeks[3]["otherwise"])
    assert weeks[5]["load_done"] > weeks[5]["load_planned"]
    assert len(told["records"]) == len(club.lines) + 3


def test_files_that_people_keep_are_as_they_left_them(club):
    path = club.folder.path

    assert (path / "squad.csv").read_text() == SQUAD
    assert (path / "fixtures.csv").read_text().splitlines()[
        0
    ] == "date;kickoff;opponent;priority;bus"
    assert (path / "availability.csv").read_text().endswith("Birk,2027-01-28,2027-02-20,out,,\n")
