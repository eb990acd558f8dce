"""Many tabs at once: is every edit that was said to be made there, and nothing else?

``python -m tests.benchmarks.page_clients [--clients 200]`` has so many threads read the state and
ask for an edit of what they were shown, all at the same time, and again of what it is then until
theirs is made. A row goes into ``docs/results/toughness.md``; the exit code is 1 if one was lost
or anything broke.
"""

import argparse
import json
import tempfile
import threading
import time
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

from tests.benchmarks.tough_table import note
from tests.serve import serving as serve
from tests.serve.small_season import FIXTURES, SCENARIO

DATES = ("2027-03-06", "2027-03-13", "2027-03-20")
#: Seconds an answer may take, seconds until a tab asks again at most, and how often it does.
PATIENCE, WAIT, TRIES = 900, 20.0, 200


def client(served: Any, number: int, told: Counter[str]) -> None:
    """Give a match a name of one's own, as often asked for as others came between."""
    rng = Random(number)
    edit = {"edit": "describe", "date": rng.choice(DATES), "opponent": f"Tab {number}"}
    for _ in range(TRIES):
        try:
            revision = json.loads(served.get("progress"))["revision"]
            status, _ = served.post("do/edit", {"revision": revision, "edits": [edit]})
        except Exception as error:  # whatever breaks is what this looks for
            told[type(error).__name__] += 1
            return
        told[str(status)] += 1
        if status != 409:
            return
        time.sleep(rng.uniform(0, WAIT))


def main() -> None:
    """Let them all ask at once."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.page_clients")
    parser.add_argument("--clients", type=int, default=200)
    asked = parser.parse_args()
    told: Counter[str] = Counter()
    serve.PATIENCE = PATIENCE
    with tempfile.TemporaryDirectory() as place:
        scenario = Path(place) / "season.toml"
        scenario.write_text(SCENARIO, encoding="utf-8")
        (Path(place) / "list.csv").write_text(FIXTURES, encoding="utf-8")
        with serve.serving(scenario) as served:
            served.settled()
            assert served.token
            began = time.monotonic()
            crew = [
                threading.Thread(target=client, args=(served, n, told))
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
        f"{told['200']} edits made and {made} there, {told['409']} refused as out of date and "
        f"asked for again, {broken} answered otherwise; {took:.0f} s"
    )
    print(found, dict(told))
    command = f"page_clients --clients {asked.clients}"
    note("tabs of one page at once", command, str(asked.clients), found)
    raise SystemExit(bool(lost or broken or told["200"] < asked.clients))


if __name__ == "__main__":
    main()
