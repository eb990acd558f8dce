"""Seasons of four squads together: CPU seconds where little is scarce, and where hours are.

python -m tests.benchmarks.club_seasons --weeks 40

All in one run: the squads' own plans, then `club --seasons` for a gym that is open in the
evening, and the same with one coach for all work of all squads.
"""

import argparse
import datetime as dt
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from cli.club import read_club_squads
from cli.club_seasons import ClubPlans, together
from cli.files.club_file import read_club
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.season.club_folder import open_club
from cli.season.plan_bytes import plan_bytes
from cli.solving import document_of
from optimiser.joint_model.solve import solve_season

FIRST = dt.date(2027, 8, 2)
NAMES = ("First", "Second", "Women", "Under 18")
SCENARIO = """
name = "{name}"
first_monday = {first}
weeks = {weeks}
under_18 = {young}
fixtures = [{fixtures}]
[rules.spacing]
earliest = "{earliest}"
latest = "20:30"
"""
SQUAD = """
[[squads]]
name = "{name}"
scenario = "{number}.toml"
plan = "{number}.json"
priority = {priority}
"""
GYM = """
[[shared]]
name = "Gym"
uses = ["gym"]
opens = 17:00:00
closes = 20:30:00

[[shared]]
name = "Pitches"
uses = ["field", "practice"]
holds = 2
opens = 09:00:00
closes = 22:00:00
"""
COACH = """
[[shared]]
name = "Coach"
kind = "person"
uses = ["gym", "field"]
opens = 17:30:00
closes = {closes}:00
"""


def fixtures(number: int, weeks: int) -> str:
    """Return a match nearly every week after a pre-season, on another day for the third squad."""
    days = [
        (week, FIRST + dt.timedelta(days=7 * week + (6 if number == 2 else 5)))
        for week in range(6, weeks)
        if (week + number) % 9
    ]
    rank = {
        week: "high" if (week + 2 * number) % 13 == 0 else "medium" if week % 4 == 0 else "low"
        for week, _ in days
    }
    told = (
        f'{{ date = {day}, kickoff = "15:00", priority = "{rank[week]}" }}' for week, day in days
    )
    return ", ".join(told)


def write(folder: Path, weeks: int) -> float:
    """Write four squads with their own plans, and return the CPU seconds of these."""
    for number, name in enumerate(NAMES):
        text = SCENARIO.format(
            name=name,
            first=FIRST,
            weeks=weeks,
            young="true" if number == 3 else "false",
            fixtures=fixtures(number, weeks),
            earliest="17:00" if number else "09:00",
        )
        (folder / f"{number}.toml").write_text(text)
    began = time.process_time()
    for number in range(len(NAMES)):
        loaded = read_scenario(folder / f"{number}.toml")
        rules = read_rules(loaded)
        found = solve_season(loaded.season, rules)
        assert found.plan is not None
        document = document_of(loaded, rules, found.plan, found.verdict)
        (folder / f"{number}.json").write_bytes(plan_bytes(document))
    return time.process_time() - began


def solved(folder: Path, shared: str) -> tuple[ClubPlans, float]:
    """Return the club's seasons together, and the CPU seconds of that."""
    squads = [
        SQUAD.format(name=name, number=number, priority=min(number + 1, 3))
        for number, name in enumerate(NAMES)
    ]
    (folder / "club.toml").write_text("\n".join(['name = "Oakhurst"', *squads, shared]))
    began = time.process_time()
    place = open_club(folder)
    club = read_club(folder)
    members = read_club_squads(place.scenario, club)
    made = together(place, club, members, lambda told: print(f"  {told}", flush=True))
    return made, time.process_time() - began


def main() -> None:
    """Print all figures."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--weeks", type=int, default=40)
    parser.add_argument("--closes", default="19:15", help="When the coach goes home.")
    asked = parser.parse_args()
    with TemporaryDirectory() as name:
        folder = Path(name)
        spent = write(folder, asked.weeks)
        print(
            f"{len(NAMES)} squads x {asked.weeks} weeks, each by itself: {spent:.0f} s", flush=True
        )
        for kind, shared in (
            ("a gym of one squad at once", GYM),
            ("one coach too", GYM + COACH.format(closes=asked.closes)),
        ):
            made, spent = solved(folder, shared)
            found = made.found
            print(f"{kind}: {spent:.0f} s, {len(found.scarce)} of {len(made.grounds)} scarce, "
                  f"{sum(map(bool, found.prices))} with a price, {found.solved} seasons planned, "
                  f"gap {100 * found.gap:.2f} %, {len(found.over)} too full, "
                  f"{len(found.unfit)} without a whole timetable", flush=True)  # fmt: skip


if __name__ == "__main__":
    main()
