"""Many tabs at once: is every edit that was said to be made there, and nothing else?

``python -m tests.benchmarks.page_clients [--clients 200] [--each 5]`` has so many threads read the
state and ask for an edit of what they were shown, all at the same time. A row goes into
``docs/results/toughness.md``; the exit code is 1 if an edit was lost or anything broke.
"""

import argparse
import tempfile
import threading
import time
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

from tests.benchmarks.tough_table import note
from tests.serve.serving import serving
from tests.serve.small_season import FIXTURES, SCENARIO

PRIORITIES = ("low", "medium", "high")
DATES = ("2027-03-06", "2027-03-13", "2027-03-20")


def client(served: Any, rng: Random, each: int, told: Counter[str]) -> None:
    """Ask for so many edits, each of what the state was when it was read."""
    for _ in range(each):
        try:
            state = served.state
            edit = {"edit": "rank", "date": rng.choice(DATES), "priority": rng.choice(PRIORITIES)}
            data = {"revision": state["revision"], "edits": [edit], "sure": True}
            status, _ = served.post("do/edit", data)
        except Exception as error:  # whatever breaks is what this looks for
            told[type(error).__name__] += 1
        else:
            told[str(status)] += 1


def main() -> None:
    """Let them all ask at once."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.page_clients")
    parser.add_argument("--clients", type=int, default=200)
    parser.add_argument("--each", type=int, default=5)
    asked = parser.parse_args()
    told: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as place:
        scenario = Path(place) / "season.toml"
        scenario.write_text(SCENARIO, encoding="utf-8")
        (Path(place) / "list.csv").write_text(FIXTURES, encoding="utf-8")
        with serving(scenario) as served:
            served.settled()
            assert served.token
            began = time.monotonic()
            crew = [
                threading.Thread(target=client, args=(served, Random(n), asked.each, told))
                for n in range(asked.clients)
            ]
            for thread in crew:
                thread.start()
            for thread in crew:
                thread.join()
            took = time.monotonic() - began
            made = len(served.state["edits"])
    # refused: made by another tab meanwhile, or so already
    lost = told["200"] - made
    broken = sum(many for key, many in told.items() if key not in ("200", "409"))
    found = (
        f"{told['200']} edits made and {made} there, {told['409']} refused as out of date or so "
        f"already, {broken} answered otherwise; {took:.0f} s"
    )
    print(found, dict(told))
    command = f"page_clients --clients {asked.clients} --each {asked.each}"
    note("tabs of one page at once", command, f"{asked.clients} x {asked.each}", found)
    raise SystemExit(bool(lost or broken))


if __name__ == "__main__":
    main()
