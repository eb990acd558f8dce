"""Files of every kind with bytes changed: read, or refused in one line with their name?

``python -m tests.benchmarks.spoiled_files [--cases 80000] [--seed 0]`` spoils each kind in turn and
writes a row of ``docs/results/toughness.md``. The exit code is 1 if something else came of a file.
"""

import argparse
import datetime as dt
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random

import openpyxl
from click.testing import CliRunner

from cli.files.availability_file import read_availability
from cli.files.changes_file import read_changes, read_futures
from cli.files.errors import InputError
from cli.files.fit_csv import read_loads, read_tests
from cli.files.fixtures_file import find_fixtures, read_fixtures_file
from cli.files.fixtures_found import ListFacts
from cli.files.minutes_file import read_minutes
from cli.files.plan_file import read_plan
from cli.files.rule_sets import read_rule_sets
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.files.squad import read_squad
from cli.files.tests_file import read_measured
from cli.main import main as seasonwright
from cli.season.days_csv import read_asked
from cli.season.done_csv import read_done
from tests.benchmarks.tough_table import note

Reader = Callable[[Path], object]
SCENARIO = """\
name = "Spring"
first_monday = 2027-02-01
weeks = 9
fixtures_file = "fixtures.csv"
squad_file = "squad.csv"

[targets.high]
peak = 92
step = 6
weeks = 3

[[breaks]]
kind = "camp"
first = 2027-02-08
last = 2027-02-10

[practice.in_season]
days = ["tuesday", "thursday"]
times = ["19:00", "18:30"]

[rules.deload]
every = 5
"""
FIXTURES = """\
date,kickoff,opponent,competition,venue,priority,notes
2027-03-06,15:00,Ashford,League,home,low,bring kit
2027-03-13,15:00,Birchwood,League,away,medium,
2027-03-20,3:00 PM,Calder,League,H,low,
2027-04-03,14:00,Denholm,Cup final,neutral,high,
"""
FEED = "".join(
    f"{line}\r\n"
    for line in (
        *("BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//x//EN", "X-WR-TIMEZONE:Europe/Dublin"),
        *("BEGIN:VEVENT", "UID:1", "DTSTAMP:20270101T000000Z", "DTSTART:20270306T150000"),
        *("SUMMARY:Ashford (home)", "SEQUENCE:1", "CATEGORIES:League", "END:VEVENT"),
        *("BEGIN:VEVENT", "UID:2", "DTSTAMP:20270101T000000Z", "DTSTART;VALUE=DATE:20270313"),
        *("SUMMARY:Birchwood POSTPONED", "RRULE:FREQ=WEEKLY;COUNT=2", "END:VEVENT"),
        "END:VCALENDAR",
    )
)
CHANGES = """\
name = "later"
[[edits]]
edit = "move"
date = 2027-03-13
to = 2027-03-10
[[edits]]
edit = "set"
rule = "blocks"
parameter = "longest"
value = 5
[[edits]]
edit = "pin"
week = 3
quality = "sprint"
dose = "full"
"""
FUTURES = """\
branch_week = 4
[[futures]]
name = "as it is"
weight = 2
[[futures]]
name = "a round"
[[futures.edits]]
edit = "add"
date = 2027-03-31
"""
RULES = "[rules.blocks]\nlongest = 5\n[rules.taper]\nhigh = [90, 80]\nuse = true\n"
SQUAD = (
    "name,group,body_mass_kg,squat_1rm_kg,split_10_m_s,restriction,age\n"
    "Dora Eck,starters,71,110,1.8,hamstring,25\nEva Fox,non-playing,64,,,,16\n"
)
AVAILABLE = (
    "athlete,from,status,to,stage,limits,words\nDora Eck,2027-02-01,limited,,3,impact,easy\n"
    "Eva Fox,2027-02-10,away,2027-02-12,,,\n"
)
DONE = (
    "date,who,what,dose,band,minutes,rpe\n2027-02-10,Dora Eck,sprint,full,S3,40,7\n"
    "2027-02-11,squad,power,none,,,\n"
)
DAYS = "date,what,ask,at\n2027-02-09,gym,off,\n2027-02-11,field,on,18:00\n"
MINUTES = "athlete,date,minutes\nDora Eck,2027-03-06,80\nEva Fox,2027-03-06,10\n"
RESULTS = "athlete,date,test,value\nDora Eck,2027-02-01,squat_1rm_kg,110\n"
TESTS = "date,quality,result,athlete,load\n2026-01-05,power,41.5,Aune,\n2026-01-06,power,,,320\n"
LOADS = "date,load,quality,athlete\n2026-01-05,320,power,Aune\n2026-01-06,0,,\n"
NAMES, LAST = ("Dora Eck", "Eva Fox"), dt.date(2027, 4, 4)
JUNK = (
    *(b"", b"\x00", b"\xff", b"-", b"0", b"{", b"]", b",", b";", b'"', b"\n", b"\r", b"=", b"."),
    *(b"1e999", b"9999-12-31", b"nan", b"null", b"\xef\xbb\xbf", b"\xf0\x9f\xa6\x8a", b"[" * 999),
)


def spoil(rng: Random, whole: bytes) -> bytes:
    """Return bytes of which up to three stretches are replaced, doubled or left out."""
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        start = rng.randint(0, len(whole))
        stop = min(len(whole), start + rng.choice((0, 1, 2, 4, 12, 40)))
        middle = rng.choice(
            (rng.choice(JUNK), rng.randbytes(rng.randint(0, 6)), whole[start:stop] * 2)
        )
        whole = whole[:start] + middle + whole[stop:]
    return whole[: rng.randint(0, len(whole))] if rng.random() < 0.05 else whole


def kinds(folder: Path) -> Iterator[tuple[str, Reader]]:
    """Write a whole file of each kind, and yield its name with how it is read."""
    texts = {
        "season.toml": SCENARIO, "fixtures.csv": FIXTURES, "feed.ics": FEED,
        "changes.toml": CHANGES, "futures.toml": FUTURES, "rules.toml": RULES, "squad.csv": SQUAD,
        "availability.csv": AVAILABLE, "done.csv": DONE, "days.csv": DAYS, "minutes.csv": MINUTES,
        "results.csv": RESULTS, "tests.csv": TESTS, "loads.csv": LOADS,
    }  # fmt: skip
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8", newline="")
    book = openpyxl.Workbook()
    for row in FIXTURES.splitlines():
        book.active.append(row.split(","))
    book.save(folder / "fixtures.xlsx")
    season, made = folder / "season.toml", folder / "plan.json"
    for words in (
        ["plan", season, "--out", made, "--format", "json"],
        ["plan", season, "--out", folder / "plan.csv", "--format", "json"],
        ["report", season, made, "--xlsx", "--out", folder / "report"],
    ):
        done = CliRunner().invoke(seasonwright, [str(word) for word in words])
        if done.exit_code:
            raise SystemExit(done.output)
    next((folder / "report").glob("*.xlsx")).rename(folder / "plan.xlsx")
    loaded = read_scenario(folder / "season.toml")
    rules, season = read_rules(loaded), loaded.season
    listed = read_tests(folder / "tests.csv")
    lifts, tags = ["squat"], ["hamstring", "impact"]

    def plan(path: Path) -> object:
        return read_plan(path, loaded, rules, other_season=True)

    def list_of(path: Path) -> object:
        return find_fixtures(path, ListFacts())

    yield "season.toml", lambda path: read_rules(read_scenario(path))
    yield "fixtures.csv", list_of
    yield "fixtures.csv", read_fixtures_file
    yield "fixtures.xlsx", list_of
    yield "feed.ics", list_of
    yield "changes.toml", read_changes
    yield "futures.toml", read_futures
    yield "rules.toml", lambda path: read_rule_sets([path])
    yield "plan.json", plan
    yield "plan.csv", plan
    yield "plan.xlsx", plan
    yield "squad.csv", lambda path: read_squad(path, lifts, tags)
    yield "availability.csv", lambda path: read_availability(path, NAMES, tags)
    yield "done.csv", lambda path: read_done(path, season, LAST)
    yield "days.csv", lambda path: read_asked(path, season)
    days = {fixture.date for fixture in season.fixtures}
    yield "minutes.csv", lambda path: read_minutes(path, NAMES, days)
    yield "results.csv", lambda path: read_measured(path, lifts, NAMES)
    yield "tests.csv", read_tests
    yield "loads.csv", lambda path: read_loads(path, listed)


def fault(reader: Reader, path: Path) -> str | None:
    """Return what is wrong with what became of a file; None if it was read, "" if refused well."""
    try:
        reader(path)
    except InputError as error:
        told = error.format_message()
        return (
            ""
            if str(path.parent) in told and "\n" not in told
            else f"not told in one line: {told!r}"
        )
    except Exception as error:  # what a benchmark of traceback-free reading is to find
        return f"{type(error).__name__}: {error}"
    return None


def main() -> None:
    """Spoil files of each kind in turn."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.spoiled_files")
    parser.add_argument("--cases", type=int, default=80_000)
    parser.add_argument("--seed", type=int, default=0)
    asked = parser.parse_args()
    began, read, refused, wrong, most = time.monotonic(), 0, 0, 0, 0.0
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        readers = list(kinds(folder))
        wholes = [(folder / name).read_bytes() for name, _ in readers]
        for (name, reader), whole in zip(readers, wholes, strict=True):
            if told := fault(reader, folder / name):
                raise SystemExit(f"the whole {name} cannot be read: {told}")
            for case in range(asked.cases // len(readers)):
                rng = Random(f"{asked.seed} {name} {case}")
                (folder / name).write_bytes(spoil(rng, whole))
                started = time.monotonic()
                told = fault(reader, folder / name)
                most = max(most, time.monotonic() - started)
                read, refused = read + (told is None), refused + (told == "")
                if told:
                    wrong += 1
                    print(f"{name}, case {case}: {told}", flush=True)
            (folder / name).write_bytes(whole)
            print(f"{name} done, {time.monotonic() - began:.0f} s", flush=True)
    total = read + refused + wrong
    found = (
        f"{read} read, {refused} refused in one line with their name, {wrong} otherwise; "
        f"the slowest took {most:.1f} s"
    )
    print(f"{total} files: {found}")
    command = f"spoiled_files --cases {asked.cases}"
    note(f"files with bytes changed, {len(readers)} kinds", command, str(total), found)
    raise SystemExit(wrong > 0)


if __name__ == "__main__":
    main()
