"""An invented season of 50 weeks, lived from first to last, with all that happens in one."""

import datetime as dt
import json

from cli.season.folder import Folder
from tests.season.conftest import invoke

FIRST = dt.date(2027, 1, 4)
WEEKS = 50
FINAL, POSTPONED = "2027-12-11", "2027-12-15"
SQUAD = """\
name,group,body_mass_kg,age,cleared,squat_1rm_kg
Aune,squad,70,24,,120
Birk,squad,82,27,,150
Cai,returning,77,22,yes,130
"""
#: A match a week but for a summer break and weeks without one.
LEAGUE = [
    FIRST + dt.timedelta(days=5 + 7 * week)
    for week in range(9, 46)
    if week not in (20, 21, 22, 23, 33)
]
WHAT = ("sprint", "power")
#: What is left of the usual qualities where the season is to be lived quickly.
LEFT_OUT = ("resisted_sprint", "plyometrics", "max_strength", "general_strength")
FEW = "\n[qualities]\n" + "".join(f"{key}.use = false\n" for key in LEFT_OUT)


def fixtures():
    rows = [f"{day};15:00;League {number};low;home" for number, day in enumerate(LEAGUE, 1)]
    return "\n".join(["date;kickoff;opponent;priority;bus", *rows, f"{FINAL};15:00;Final;high;"])


class Club:
    """A season folder, and what must never change in it."""

    def __init__(self, path):
        self.folder, self.lines, self.past, self.applied = Folder(path), [], {}, 0

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
        for number in range(min(week, WEEKS)):
            cells = {key: (q["band"], q["dose"]) for key, q in weeks[number]["qualities"].items()}
            assert self.past.setdefault(number, cells) == cells, f"week {number + 1} changed"

    def usual(self, first, last):
        """Record usual weeks."""
        for week in range(first, last + 1):
            what = WHAT[week % len(WHAT)]
            self.record(week, "--what", what, "--minutes", 20 + week % 3, "--rpe", 5 + week % 4)


def live_season(root, few=True):
    """Live the season in ``root``; each step asserts what it must leave."""
    (root / "list.csv").write_text(fixtures())
    made = invoke(
        "new", "--fixtures", root / "list.csv", "-o", root / "club", "--first-monday", FIRST,
        "--weeks", WEEKS, "--off-season-weeks", 0,
    )  # fmt: skip
    assert made.exit_code == 0, made.output
    club = Club(root / "club")
    (club.folder.path / "squad.csv").write_text(SQUAD)
    if few:
        club.folder.scenario.write_text(club.folder.scenario.read_text() + FEW)
    club.run(0, "plan")
    pre_season(club, root)
    cup_run(club)
    summer(club)
    postponed_final(club)
    return club


def pre_season(club, root):
    """Weeks 1 to 10: sheets of athletes, an illness that costs two weeks, a first re-plan."""
    club.usual(1, 7)
    sheet = root / "rpe.csv"
    rows = [
        f"{FIRST + dt.timedelta(days=50)},{who},{minutes},{rpe}"
        for who, minutes, rpe in (("Aune", 80, 6), ("Birk", 75, 7), ("Cai", 30, 3))
    ]
    sheet.write_text("\n".join(["Day,Player,Length,Rating", *rows]))
    heads = ("date=Day", "who=Player", "minutes=Length", "rpe=Rating")
    spoken = [option for pair in heads for option in ("--map", pair)]
    club.run(8, "done", "--import", sheet, "--what", "practice", *spoken)
    club.run(8, "done", "--import", sheet)
    for week in (9, 10):
        for quality in WHAT:
            club.record(week, "--what", quality, "--dose", "missed")
    away = "Birk,2027-03-08,2027-03-28,out,,,\n"
    there = club.folder.path / "availability.csv"
    there.write_text(there.read_text() + away)
    told = club.run(10, "replan", "--apply", "A").stdout
    assert "Done otherwise than planned" in told
    club.run(10, "audit", "--no-optimum")
    said = " ".join(club.run(10, "week", "--week", 11).stdout.split())
    assert "Squad: 2 of 3 are there. Out: Birk." in said
    cards = club.run(10, "cards", "--week", 11).stdout
    assert all(name in cards for name in ("Aune", "Birk", "Cai"))


def cup_run(club):
    """Weeks 11 to 20: two more matches, while somebody else edits the list."""
    club.usual(11, 13)
    club.record(14, "--what", "practice", "--minutes", 200, "--rpe", 6)
    rows = club.folder.path / "fixtures.csv"
    rows.write_text(rows.read_text().replace("League 9;low;home", "League 9;low;away"))
    cup = ("--add", "2027-04-28:medium:Cup one", "--add", "2027-05-12:medium:Cup two")
    club.run(15, "replan", *cup, "--apply", "A")
    text = rows.read_text()
    assert "League 9;low;away" in text
    assert "2027-04-28;;Cup one;medium;" in text
    club.usual(16, 20)
    club.run(20, "done", "--athlete", "all")


def summer(club):
    """Weeks 21 to 30: two people at the same files, one of them too late."""
    rows = club.folder.path / "fixtures.csv"
    mine = rows.read_text()
    rows.write_text(mine.replace("League 20;low", "League 20;medium"))
    refused = club.run(22, "whatif", "--move", f"{FINAL}=2027-12-13", "--apply", code=1)
    assert "replan" in refused.stderr
    assert "League 20;medium" in rows.read_text()
    rows.write_text(mine)
    club.usual(21, 30)


def postponed_final(club):
    """Weeks 31 to 50: the final is moved, taken back, and moved after all; the season is over."""
    before = club.folder.now(club.folder.deciding())
    club.run(31, "whatif", "--move", f"{FINAL}={POSTPONED}", "--apply")
    club.run(31, "undo")
    assert club.folder.now(club.folder.deciding()) == before
    club.run(31, "redo")
    assert f"{POSTPONED};15:00;Final;high;" in (club.folder.path / "fixtures.csv").read_text()
    club.record(32, "--what", "match", "--minutes", 95, "--rpe", 9)
    club.run(32, "versions", "--name", "the final on Wednesday")
    club.usual(33, 43)
    club.record(44, "--what", "sprint", "--minutes", 60, "--rpe", 9)
    club.run(44, "replan", "--apply", "A")
    club.run(45, "report", "--ics", "-o", club.folder.path / "out")
    club.usual(45, 50)
    club.run(50, "done")
    club.run(50, "audit", "--no-optimum")
    over = club.run(50, "replan", code=1)
    assert "must have a week that is not over yet" in over.stderr
