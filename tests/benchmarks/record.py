"""Record the optimum of every demo season: ``python -m tests.benchmarks.record``.

Doses are searched for longer than in ``seasonwright plan``, until nothing better can exist.
"""

import json

from cli.files.safe_write import write_text
from optimiser.solve import Settings
from tests.demo_seasons import DEMOS, RECORD, load, solve

SETTINGS = Settings().to_the_end()


def entry(name: str) -> dict[str, object]:
    """Return what a demo season's stages reached."""
    emphasis, doses = solve(name, SETTINGS).stages
    return {
        "digest": load(name).digest,
        "emphasis": emphasis.objective,
        "emphasis_status": emphasis.status,
        "doses": doses.objective,
        "doses_bound": doses.bound,
        "doses_status": doses.status,
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
