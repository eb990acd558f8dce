"""Record the optimum of every demo season: ``python -m tests.benchmarks.record``."""

import json

from cli.files.safe_write import write_text
from tests.demo_seasons import DEMOS, RECORD, load, solve


def entry(name: str) -> dict[str, object]:
    """Return what a demo season's stages reached."""
    emphasis, doses = solve(name).stages
    return {
        "digest": load(name).digest,
        "emphasis": emphasis.objective,
        "emphasis_status": emphasis.status,
        "doses": doses.objective,
        "doses_bound": doses.bound,
    }


def main() -> None:
    """Solve each demo and write the record beside the scenarios."""
    record = {}
    for name in DEMOS:
        record[name] = entry(name)
        print(name, record[name], flush=True)
    write_text(RECORD, json.dumps(record, indent=2) + "\n")


if __name__ == "__main__":
    main()
