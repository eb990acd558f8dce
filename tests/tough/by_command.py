"""What becomes of a calendar by the real commands: `new` from a written list, `plan`, `audit`."""

import csv
import datetime as dt
import os
import subprocess
import sys
from pathlib import Path

from tests.tough.any_calendar import Calendar
from tests.tough.keeps_its_rules import PLANNED

ROOT = Path(__file__).parents[2]
COLUMNS = ("date", "kickoff", "competition", "priority", "travel_hours")
#: Seconds of a search: a short one.
SECONDS = 20


def end_by_command(calendar: Calendar, folder: Path) -> str:
    """Return what became of a calendar: "planned", or the command that went wrong and its words."""
    listed, scenario, plan = folder / "matches.csv", folder / "season.toml", folder / "plan.json"
    _write(listed, calendar)
    frame = ["--first-monday", str(calendar.first_monday), "--weeks", str(calendar.weeks)]
    steps = (
        ["new", "--fixtures", listed, "-o", scenario, "--force", *frame],
        ["plan", scenario, "--seconds", SECONDS, "--out", plan],
        ["audit", scenario, plan, "--no-optimum"],
    )
    for step in steps:
        done = _run(*map(str, step))
        if done.returncode:
            said = " ".join(done.stderr.split())[:200]
            return f"{step[0]} ended with {done.returncode}: {said}"
        if step[0] == "new":
            _add_breaks(scenario, calendar)
    return PLANNED


def _run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "cli", *arguments],
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )


def _write(path: Path, calendar: Calendar) -> None:
    """Write the matches as a league's export has them, dates with the day first."""
    with path.open("w", newline="") as out:
        rows = csv.writer(out)
        rows.writerow(COLUMNS)
        for match in calendar.fixtures:
            kickoff = f"{match.kickoff:%H:%M}" if match.kickoff else ""
            given = (_day(match.date), kickoff, match.competition, match.priority.value)
            rows.writerow([*given, f"{match.travel_hours:g}"])


def _day(date: dt.date) -> str:
    return f"{date:%a} {date.day}{date: %b %Y}"


def _add_breaks(scenario: Path, calendar: Calendar) -> None:
    with scenario.open("a") as out:
        for each in calendar.breaks:
            out.write(f'\n[[breaks]]\nkind = "{each.kind}"\n')
            out.write(f"first = {each.first}\nlast = {each.last}\n")
