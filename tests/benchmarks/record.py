"""Record the proven season cost of every demo: ``python -m tests.benchmarks.record``."""

import json
import time

from cli.files.safe_write import write_text
from optimiser.joint_model.effort import Settings
from tests.demo_seasons import DEMOS, RECORD, load, solve


def entry(name: str) -> dict[str, object]:
    """Return what a demo season's best plan costs and what is proven of it."""
    verdict = solve(name, Settings().to_the_end()).verdict
    assert verdict is not None
    return {
        "digest": load(name).digest,
        "cost": verdict.cost,
        "bound": verdict.bound,
        "gap": round(verdict.gap, 5),
        "status": verdict.status,
    }


def main() -> None:
    """Solve each demo and write the record beside the scenarios."""
    record = {}
    for name in DEMOS:
        began = time.perf_counter()
        record[name] = entry(name)
        print(name, record[name], f"{time.perf_counter() - began:.0f} s", flush=True)
    write_text(RECORD, json.dumps(record, indent=2) + "\n")


if __name__ == "__main__":
    main()
