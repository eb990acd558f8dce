"""An invented season, lived from first to last, with all that happens in one.

It is told for 50 weeks; a shorter one has the same story, every date and week moved in proportion.
"""

import datetime as dt
import json
from dataclasses import dataclass

from cli.season.folder import Folder
from tests.season.conftest import FEW, invoke

FIRST = dt.date(2027, 1, 4)
WEEKS = 50
SQUAD = """\
name,group,body_mass_kg,age,cleared,squat_1rm_kg
Aune,squad,70,24,,120
Birk,squad,82,27,,150
Cai,returning,77,22,yes,130
"""
WHAT = ("sprint", "power")


@dataclass(frozen=True)
class Story:
    """The story in so many weeks; what is told of a week is told of one of 50."""

    weeks: int = WEEKS

    def week(self, told):
        """Return the week, from 1, of week ``told`` of 50."""
        return -(-told * self.weeks // WEEKS)

    def day(self, told, weekday=0):
        """Return a day of the week that is told of, 0 for its Monday."""
        return FIRST + dt.timedelta(days=7 * (self.week(told) - 1) + weekday)

    @property
    def final(self):
        """Return when the final is to be played, and when it is played."""
        return self.day(49, 5), self.day(50, 2)

    def league(self):
        """Return a match a week but for a pre-season, a summer break and one week without."""
        without = {self.week(told) for told in (21, 22, 23, 24, 34)}
        weeks = sorted({self.week(told) for told in range(10, 47)} - without)
        return [FIRST + dt.timedelta(days=7 * week - 2) for week in weeks]

    def fixtures(self):
        rows = [
            f"{day};15:00;League {number};low;home" for number, day in enumerate(self.league(), 1)
        ]
        final = f"{self.final[0]};15:00;Final;high;"
        return "\n".join(["date;kickoff;opponent;priority;bus", *rows, final])


class Club:
    """A season folder, and what must never change in it."""

    def __init__(self, path, story):
        self.folder, self.story, self.lines, self.past = Folder(path), story, [], {}

    def run(self, told, name, *options, code=0):
        """Run a command on the Monday after so many weeks; what is over must stand."""
        week = self.story.week(told)
        today = FIRST + dt.timedelta(weeks=week)
        result = invoke(name, self.folder.path, "--today", today, *options)
        assert result.exit_code == code, f"{name} {options}: {result.output}"
        self.check(week)
        return result

    def record(self, told, *options):
        """Record something of the week that has just ended."""
        self.run(told, "done", "--date", self.story.day(told, 2), *options)
        self.lines.append(self.folder.done.read_text().splitlines()[-1])

    def check(self, week):
        """Compare what is over with what it was when it was first over."""
        text = self.folder.done.read_text()
        assert all(line in text for line in self.lines)
        if not self.folder.plan.exists():
            return
        weeks = json.loads(self.folder.plan.read_text())["weeks"]
        for number in range(min(week, self.story.weeks)):
            cells = {key: (q["band"], q["dose"]) for key, q in weeks[number]["qualities"].items()}
            assert self.past.setdefault(number, cells) == cells, f"week {number + 1} changed"

    def usual(self, first, last):
        """Record usual weeks, each of the story's once."""
        weeks = {self.story.week(told): told for told in range(first, last + 1)}
        for told in weeks.values():
            what = WHAT[self.story.week(told) % len(WHAT)]
            self.record(told, "--what", what, "--minutes", 20 + told % 3, "--rpe", 5 + told % 4)


def live_season(root, weeks=WEEKS, few=True):
    """Live the season in ``root``; each step asserts what it must leave."""
    story = Story(weeks)
    (root / "list.csv").write_text(story.fixtures())
    made = invoke(
        "new", "--fixtures", root / "list.csv", "-o", root / "club", "--first-monday", FIRST,
        "--weeks", weeks, "--off-season-weeks", 0,
    )  # fmt: skip
    assert made.exit_code == 0, made.output
    club = Club(root / "club", story)
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
    club.usual(1, 6)
    sheet, day = root / "rpe.csv", club.story.day(8, 1)
    rows = [
        f"{day},{who},{minutes},{rpe}"
        for who, minutes, rpe in (("Aune", 80, 6), ("Birk", 75, 7), ("Cai", 30, 3))
    ]
    sheet.write_text("\n".join(["Day,Player,Length,Rating", *rows]))
    heads = ("date=Day", "who=Player", "minutes=Length", "rpe=Rating")
    spoken = [option for pair in heads for option in ("--map", pair)]
    club.run(8, "done", "--import", sheet, "--what", "practice", *spoken)
    club.run(8, "done", "--import", sheet)
    for told in sorted({club.story.week(9): 9, club.story.week(10): 10}.values()):
        for quality in WHAT:
            club.record(told, "--what", quality, "--dose", "missed")
    away = f"Birk,{club.story.day(10)},{club.story.day(13, 6)},out,,,"
    there = club.folder.path / "availability.csv"
    there.write_text(f"{there.read_text()}{away}\n")
    told = club.run(10, "replan", "--apply", "A").stdout
    assert "Done otherwise than planned" in told
    club.run(10, "audit", "--no-optimum")
    following = club.story.week(10) + 1
    said = " ".join(club.run(10, "week", "--week", following).stdout.split())
    assert "Squad: 2 of 3 are there. Out: Birk." in said
    cards = club.run(10, "cards", "--week", following).stdout
    assert all(name in cards for name in ("Aune", "Birk", "Cai"))


def cup_run(club):
    """Weeks 11 to 20: two more matches, while somebody else edits the list."""
    club.usual(11, 12)
    club.record(14, "--what", "practice", "--minutes", 200, "--rpe", 6)
    rows = club.folder.path / "fixtures.csv"
    third = "League 3;low;home"
    rows.write_text(rows.read_text().replace(third, "League 3;low;away"))
    ties = [(club.story.day(18, 2), "Cup one"), (club.story.day(21, 2), "Cup two")]
    cup = [part for day, name in ties for part in ("--add", f"{day}:medium:{name}")]
    club.run(15, "replan", *cup, "--apply", "A")
    text = rows.read_text()
    assert "League 3;low;away" in text
    assert f"{ties[0][0]};;Cup one;medium;" in text
    club.usual(17, 20)
    club.run(20, "done", "--athlete", "all")


def summer(club):
    """Weeks 21 to 30: two people at the same files, one of them too late."""
    rows, final = club.folder.path / "fixtures.csv", club.story.final[0]
    mine = rows.read_text()
    later = f"{final};15:00;Final;high"
    assert later in mine
    rows.write_text(mine.replace(later, later.replace("15:00", "16:30")))
    moved = f"{final}={final + dt.timedelta(days=1)}"
    refused = club.run(22, "whatif", "--move", moved, "--apply", code=1)
    assert "replan" in refused.stderr
    assert "16:30;Final" in rows.read_text()
    rows.write_text(mine)
    club.usual(23, 30)


def postponed_final(club):
    """Weeks 31 to 50: the final is moved, taken back, and moved after all; the season is over."""
    before = club.folder.now(club.folder.deciding())
    final, postponed = club.story.final
    club.run(31, "whatif", "--move", f"{final}={postponed}", "--apply")
    club.run(31, "undo")
    assert club.folder.now(club.folder.deciding()) == before
    club.run(31, "redo")
    assert f"{postponed};15:00;Final;high;" in (club.folder.path / "fixtures.csv").read_text()
    club.record(32, "--what", "match", "--minutes", 95, "--rpe", 9)
    club.run(32, "versions", "--name", "the final on Wednesday")
    club.usual(33, 42)
    club.record(44, "--what", "sprint", "--minutes", 60, "--rpe", 9)
    club.run(44, "replan", "--apply", "A")
    club.run(45, "report", "--ics", "-o", club.folder.path / "out")
    club.usual(46, 50)
    club.run(50, "done")
    club.run(50, "audit", "--no-optimum")
    over = club.run(50, "replan", code=1)
    assert "must have a week that is not over yet" in over.stderr
