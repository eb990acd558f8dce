"""The page in a real Chromium: how soon it is there, answers an edit, and follows a pointer.

``python -m tests.benchmarks.page [SEASON]`` prints a table for a demo season, for two years of it
in one, and for a season made from a list. Needs Debian's chromium and chromium-driver, and
selenium (extra dev). Times are told with the processor seconds of all that serves the page, as the
machine may be busy.
"""

import argparse
import csv
import datetime as dt
import io
import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from tabulate import tabulate

from tests.chromium_page import chromium, size
from tests.serve.serving import serving

SCENARIOS = Path(__file__).parents[2] / "scenarios"
ONE = dt.timedelta(days=1)
LOADS, EDITS, FRAMES = 5, 5, 150
PAINT = (
    "return performance.getEntriesByName('first-contentful-paint').map(each => each.startTime)[0]"
)
#: When the season itself was first drawn, by the page's own clock.
DRAWN = (
    "const done = arguments[0]; const look = () => document.querySelector('.cell')"
    " ? requestAnimationFrame(() => done(performance.now())) : requestAnimationFrame(look); look();"
)
#: A match is moved by keys; told is when the touched weeks stand out, and when the new day does.
MOVED = (
    "const [date, to, done] = arguments, sign = day => document.querySelector("
    "`.match[data-date='${day}']`), press = key => sign(date).dispatchEvent("
    "new KeyboardEvent('keydown', {key, bubbles: true}));"
    "sign(date).focus(); press('m'); await new Promise(requestAnimationFrame); press('ArrowRight');"
    "await new Promise(requestAnimationFrame); const began = performance.now(); press('Enter');"
    "const look = () => document.querySelector('.ripple')"
    " ? requestAnimationFrame(() => stood(performance.now())) : requestAnimationFrame(look);"
    "const there = () => sign(to) && document.querySelector('.week.touched');"
    "const stood = (touched) => { const wait = () => there() ? requestAnimationFrame("
    "() => done([touched - began, performance.now() - began])) : requestAnimationFrame(wait);"
    " wait(); }; look();"
)
ALL_BACK = (
    "[...document.querySelectorAll('.tools button')]"
    ".find(each => each.textContent === 'All back').click()"
)
#: A match is pulled from side to side, a step a frame; told are the lengths of the frames.
DRAGGED = (
    "const [date, frames, done] = arguments, sign = document.querySelector("
    "`.match[data-date='${date}']`); sign.scrollIntoView({block: 'center', inline: 'center'});"
    "const box = sign.getBoundingClientRect(), y = box.top + 8; let x = box.left + 8;"
    "const send = (kind, to, at) => to.dispatchEvent(new PointerEvent(kind, {bubbles: true,"
    " clientX: at, clientY: y, pointerId: 1, pointerType: 'mouse', button: 0}));"
    "send('pointerdown', sign, x); const told = []; let last = performance.now(), step = 0;"
    "const frame = now => { told.push(now - last); last = now; step += 1;"
    " if (step > frames) { dispatchEvent(new KeyboardEvent('keydown', {key: 'Escape'}));"
    "  return done(told.slice(1)); }"
    " send('pointermove', window, x + 180 * Math.sin(step / 12)); requestAnimationFrame(frame); };"
    "requestAnimationFrame(frame);"
)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.page")
    parser.add_argument("season", nargs="?", default="football_cup")
    name = parser.parse_args().season
    with tempfile.TemporaryDirectory() as folder:
        here = Path(folder)
        seasons = {"a year": _copied(name, here / "year"), "two years": _two(name, here / "two")}
        rows = [{"season": what, **_measured(path)} for what, path in seasons.items()]
        print(tabulate(rows, headers="keys", tablefmt="github", floatfmt=".2f"))
        made = [_first_season(name, here / "made")]
        print(tabulate(made, headers="keys", tablefmt="github", floatfmt=".2f"))
    print(f"load of the machine at the end: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")


def _copied(name: str, folder: Path) -> Path:
    folder.mkdir()
    for path in SCENARIOS.glob(f"{name}*"):
        shutil.copy(path, folder)
    return folder / f"{name}.toml"


def _two(name: str, folder: Path) -> Path:
    """Return a season of two years: the same matches twice, 52 weeks apart."""
    folder.mkdir()
    rows = list(csv.DictReader(io.StringIO((SCENARIOS / f"{name}.csv").read_text("utf-8"))))
    later = [{**row, "date": str(_later(row["date"]))} for row in rows]
    with (folder / "list.csv").open("w", encoding="utf-8", newline="") as file:
        made = csv.DictWriter(file, list(rows[0]))
        made.writeheader()
        made.writerows(rows + later)
    out = folder / "two_years.toml"
    _command("new", "--fixtures", folder / "list.csv", "-o", out)
    return out


def _later(day: str) -> dt.date:
    return dt.date.fromisoformat(day) + dt.timedelta(weeks=52)


def _command(*words: object) -> None:
    subprocess.run([sys.executable, "-m", "cli", *map(str, words)], check=True, capture_output=True)


def _measured(scenario: Path) -> dict[str, Any]:
    """Return what one season's page takes; times in seconds but where told."""
    _command("plan", scenario, "--out", scenario.with_suffix(".plan.json"))
    with serving(scenario) as served, chromium() as browser:
        size(browser, 1440, 1000)
        paints, drawn = [], []
        for _ in range(LOADS):
            browser.get(served.url)
            drawn.append(browser.execute_async_script(DRAWN) / 1000)
            paints.append(browser.execute_script(PAINT) / 1000)
        served.settled()
        frames = browser.execute_async_script(DRAGGED, served.state["fixtures"][0]["date"], FRAMES)
        ripples, answers, soon = [], [], []
        for date, to in _moves(served.state):
            at_once, answer = browser.execute_async_script(_waiting(MOVED), date, to)
            ripples.append(at_once)
            answers.append(answer)
            soon.append(_first_plan(served))
            browser.execute_script(ALL_BACK)
            _until(lambda: not browser.find_elements("css selector", "#edits li"))
        return {
            "weeks": len(served.state["weeks"]),
            "first paint": statistics.median(paints),
            "season drawn": statistics.median(drawn),
            "touched weeks, ms": round(statistics.median(ripples)),
            "at most, ms": round(max(ripples)),
            "answered, ms": round(statistics.median(answers)),
            "frames a second": round(1000 / statistics.mean(frames)),
            "slowest frame, ms": round(max(frames)),
            "first plan": _told(soon),
            "slowest first plan": _told([max(soon)]),
        }


def _waiting(script: str) -> str:
    """Return a script of several frames; the driver's own wait for no promise."""
    return f"(async function() {{ {script} }}).apply(null, arguments)"


def _moves(state: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """Yield matches all over the season that can be moved by a day, and where to."""
    days = [dt.date.fromisoformat(match["date"]) for match in state["fixtures"]]
    free = [
        (str(day), str(day + ONE))
        for day in days
        if not {day + step * ONE for step in (1, 2)} & set(days)
        and sum(abs((other - day).days) < 7 for other in days) < 3
    ]
    step = max(1, len(free) // EDITS)
    yield from free[step // 2 :: step][:EDITS]


def _first_plan(served: Any) -> tuple[float, float]:
    """Return seconds, wall and processor, to the first plan of the changed season."""
    clock, seen = _clock(served.process.pid), None
    while True:
        told = json.loads(served.get("progress"))
        if told["version"] != seen and not served.state["stale"]:
            return clock()
        seen = told["version"]
        time.sleep(0.1)


def _first_season(name: str, folder: Path) -> dict[str, Any]:
    """Return how long it takes from an empty page to a season, list dropped and button pressed."""
    folder.mkdir()
    shutil.copy(SCENARIOS / f"{name}.csv", folder)
    with serving("--in", folder) as served, chromium() as browser:
        size(browser, 1440, 1000)
        browser.get(served.url)
        clock = _clock(served.process.pid)
        _until(lambda: browser.find_elements("css selector", "input[type=file]"))
        clock = _clock(served.process.pid)
        box = browser.find_element("css selector", "input[type=file]")
        box.send_keys(str(folder / f"{name}.csv"))
        _until(lambda: browser.find_elements("id", "make"))
        read = clock()
        clock = _clock(served.process.pid)
        browser.execute_script("arguments[0].click()", browser.find_element("id", "make"))
        _until(lambda: browser.find_elements("css selector", ".matches"))
        board = clock()
        _until(lambda: browser.find_elements("css selector", ".cell"))
        first = clock()
        served.settled()
        return {
            "list read": _told([read]),
            "board there": _told([board]),
            "first plan": _told([first]),
            "last plan": _told([clock()]),
        }


def _until(ready: Callable[[], Any]) -> None:
    while not ready():
        time.sleep(0.05)


def _told(pairs: list[tuple[float, float]]) -> str:
    wall, cpu = (statistics.median(each) for each in zip(*pairs, strict=True))
    return f"{wall:.1f} ({cpu:.1f} of a processor)"


def _clock(pid: int) -> Callable[[], tuple[float, float]]:
    """Return what tells seconds from now, of the wall and of all processors of a program."""
    began, used = time.perf_counter(), _processor(pid)
    return lambda: (time.perf_counter() - began, max(0.0, _processor(pid) - used))


def _processor(pid: int) -> float:
    """Return processor seconds of a process and of those it started."""
    ticks = os.sysconf("SC_CLK_TCK")
    found = 0.0
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = stat.read_text("utf-8").rpartition(")")[2].split()
        except OSError:
            continue
        if pid in (int(stat.parent.name), int(fields[1])):
            found += (int(fields[11]) + int(fields[12])) / ticks
    return found


if __name__ == "__main__":
    main()
