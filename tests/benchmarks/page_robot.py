"""A day at the page by a robot: edits, undo, reload, saves, a second tab that is out of date.

``python -m tests.benchmarks.page_robot [--edits 2000] [--seed 0]`` keeps a record of its own of
what must stand, compares it with the page after every step and with the files after every save. At
the end the program is killed and begun again: what was saved is there. A row goes into
``docs/results/toughness.md``; the exit code is 1 if anything differed.
"""

import argparse
import datetime as dt
import json
import tempfile
import time
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

from cli.files.scenario_file import read_scenario
from tests.benchmarks.tough_table import note
from tests.serve import serving as serve
from tests.serve.small_season import FIXTURES, SCENARIO

FIRST, WEEKS = dt.date(2027, 2, 1), 9
#: Seconds an answer, or a search, may take on a busy machine.
PATIENCE = 900
#: What the program may answer: done, wrong, out of date or not now, odd and asked about.
FINE = (200, 400, 409, 422)
#: Steps from one save to the next, and how often each other step is taken.
SAVE_EVERY = 150
STEPS = {
    "edit": 60, "undo": 12, "redo": 8, "take-back": 5, "all-back": 1, "reload": 6, "stale": 4,
    "nonsense": 3, "stop": 1,
}  # fmt: skip
PARAMETERS = {
    ("blocks", "longest"): (4, 5, 6), ("deload", "of_full"): (40, 50, 60, "much"),
    ("taper", "keep_bands"): (2, 3, 4), ("load_ramp", "percent"): (15, 25, -1),
    ("session_caps", "in_season.gym"): (1, 2, 3),
}  # fmt: skip


class Robot:
    """What must stand on the page, and the next thing to do there."""

    def __init__(self, served: Any, rng: Random) -> None:
        self.served, self.rng = served, rng
        self.now: tuple[int, ...] = ()
        self.before: list[tuple[int, ...]] = []
        self.after: list[tuple[int, ...]] = []
        self.state: dict[str, Any] = served.settled()
        self.old = 0
        self.faults: list[str] = []
        self.did: Counter[str] = Counter()

    def step(self) -> None:
        """Do one thing, and compare."""
        (kind,) = self.rng.choices(list(STEPS), list(STEPS.values()))
        getattr(self, f"_{kind.replace('-', '_')}")()
        self.did[kind] += 1
        self.state = self.served.state
        numbers = tuple(made["number"] for made in self.state["edits"])
        if numbers != self.now:
            self.faults.append(f"after {kind}: {numbers} stand and not {self.now}")
            self.now = numbers

    def save(self) -> None:
        """Save, and compare the files with the page."""
        before = sorted(match["date"] for match in self.state["fixtures"])
        status = self._ask("save")
        self.state = self.served.settled()
        if status == 200 and not self.state["edits"]:
            self.now, self.before, self.after = (), [], []
            self.did["saved"] += 1
            listed = sorted(str(day) for day in dates(self.served.scenario))
            if listed != before:
                self.faults.append(f"saved {listed} and not {before}")

    def _ask(self, action: str, **data: Any) -> int:
        status, answer = self.served.post(
            f"do/{action}", {"revision": self.state.get("revision"), **data}
        )
        if status not in FINE:
            self.faults.append(f"{action}: {status} {answer}")
        return int(status)

    def _went(self, now: tuple[int, ...], back: list[Any], on: list[Any]) -> None:
        on.append(self.now)
        self.now = now
        del back[-1]

    def _edit(self) -> None:
        if self._ask("edit", edits=[self._any_edit()], sure=True) == 200:
            numbers = tuple(made["number"] for made in self.served.state["edits"])
            if numbers[:-1] != self.now:
                self.faults.append(f"an edit made {numbers} of {self.now}")
            self.before.append(self.now)
            self.now, self.after = numbers, []

    def _any_edit(self) -> dict[str, Any]:
        rng = self.rng
        date = rng.choice(self.state["fixtures"])["date"]
        day = str(FIRST + dt.timedelta(days=rng.randint(-3, 7 * WEEKS + 3)))
        near = str(dt.date.fromisoformat(date) + dt.timedelta(days=rng.randint(-9, 9)))
        rule, parameter = rng.choice(list(PARAMETERS))
        value = rng.choice(PARAMETERS[rule, parameter])
        first = FIRST + dt.timedelta(weeks=rng.randrange(WEEKS))
        days = {"first": str(first), "last": str(first + dt.timedelta(days=rng.randint(0, 6)))}
        made: tuple[dict[str, Any], ...] = (
            {"edit": "move", "date": date, "to": near},
            {"edit": "move", "date": date, "to": near},
            {"edit": "rank", "date": date, "priority": rng.choice(("low", "medium", "high"))},
            {"edit": "add", "date": day, "opponent": rng.choice(("Elm", "=1+1", "Ø <b>"))},
            {"edit": "drop", "date": date},
            {"edit": "describe", "date": date, "opponent": "Fir", "kickoff": "19:30"},
            {"edit": "close", **days},
            {"edit": "open", **days},
            {"edit": "add_break", "kind": rng.choice(("camp", "exams", "bye")), **days},
            {"edit": "set", "rule": rule, "parameter": parameter, "value": value},
            {"edit": "drop_rule", "rule": rule},
            {"edit": "add_rule", "rule": rule},
            {"edit": "pin", "week": rng.randint(1, WEEKS), "quality": "power", "dose": "touch"},
        )
        return rng.choice(made)

    def _undo(self) -> None:
        if self.before and self._ask("undo") == 200:
            self._went(self.before[-1], self.before, self.after)

    def _redo(self) -> None:
        if self.after and self._ask("redo") == 200:
            self._went(self.after[-1], self.after, self.before)

    def _take_back(self) -> None:
        if self.now:
            number = self.rng.choice(self.now)
            if self._ask("take-back", number=number) == 200:
                self.before.append(self.now)
                self.now, self.after = tuple(n for n in self.now if n != number), []

    def _all_back(self) -> None:
        if self.now and self._ask("all-back") == 200:
            self.before.append(self.now)
            self.now, self.after = (), []

    def _reload(self) -> None:
        if "<title>" not in self.served.get() or json.loads(self.served.get("state")) is None:
            self.faults.append("the page did not load")

    def _stale(self) -> None:
        """A second tab asks for something of what it was shown a while ago."""
        data = {"revision": self.state["revision"] - 1, "edits": [self._any_edit()], "sure": True}
        status, _ = self.served.post("do/edit", data)
        if status != 409:
            self.faults.append(f"a stale tab was answered {status}")

    def _nonsense(self) -> None:
        body = self.rng.choice((b"{", b"[]", b'{"edits": [{"edit": "explode"}]}', b"\xff" * 40))
        status, _ = self.served.post(f"do/{self.rng.choice(('edit', 'undo', 'x'))}", body)
        if status not in (*FINE, 404):
            self.faults.append(f"nonsense was answered {status}")

    def _stop(self) -> None:
        self._ask("stop")


def dates(scenario: Path) -> list[dt.date]:
    """Return the days of matches as the files say."""
    return [fixture.date for fixture in read_scenario(scenario).season.fixtures]


def main() -> None:
    """Work a day at the page."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.page_robot")
    parser.add_argument("--edits", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=0)
    asked = parser.parse_args()
    began = time.monotonic()
    serve.PATIENCE = PATIENCE
    with tempfile.TemporaryDirectory() as place:
        scenario = Path(place) / "season.toml"
        scenario.write_text(SCENARIO, encoding="utf-8")
        (Path(place) / "list.csv").write_text(FIXTURES, encoding="utf-8")
        with serve.serving(scenario) as served:
            robot = Robot(served, Random(asked.seed))
            while robot.did["edit"] < asked.edits:
                robot.step()
                if sum(robot.did.values()) % SAVE_EVERY == 0:
                    robot.save()
            robot.save()
            last = sorted(dates(scenario))
            served.process.kill()
        with serve.serving(scenario) as served:
            again = sorted(match["date"] for match in served.state["fixtures"])
        if again != [str(day) for day in last]:
            robot.faults.append(f"begun again with {again} and not {last}")
    for told in robot.faults[:20]:
        print(told)
    words = ", ".join(f"{many} {kind}" for kind, many in sorted(robot.did.items()))
    found = f"{len(robot.faults)} differences from what must stand ({words})"
    print(f"{found}; {time.monotonic() - began:.0f} s")
    command = f"page_robot --edits {asked.edits}"
    note("edits of the page by a robot", command, str(robot.did["edit"]), found)
    raise SystemExit(bool(robot.faults))


if __name__ == "__main__":
    main()
