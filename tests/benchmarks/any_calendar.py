"""Try calendars by chance: ``python -m tests.benchmarks.any_calendar [FIRST] [COUNT]``."""

import sys
from collections import Counter

from constraints.load import load_rules
from optimiser.audit import audit_plan
from optimiser.engine.compact import compact
from optimiser.engine.search import Effort, minimise
from optimiser.season_build import build_season
from optimiser.solve import make_board
from tests.tough.any_calendar import any_calendar

#: Calendars between two words on how far it is.
EACH = 50
ANY_PLAN = Effort(deterministic=20.0, seconds=180.0, presolve="light")


def planned(seed: int) -> str:
    """Return what became of one calendar: "planned", or why not."""
    calendar = any_calendar(seed)
    season = build_season(calendar.scenario(), calendar.fixtures)
    rules = load_rules({})
    board = make_board(season, rules)
    small = compact(board.model)
    found = minimise(small.model, ANY_PLAN)
    if not found.values:
        return found.status
    breaches = audit_plan(season, board.read(small.expand(found.values)), rules)
    return f"breaks {breaches[0].rule}" if breaches else "planned"


def main() -> None:
    """Print every calendar without a plan, and the count of the rest."""
    given = [int(each) for each in sys.argv[1:3]]
    first, count = (given + [0, 3000][len(given) :])[:2]
    ends: Counter[str] = Counter()
    for seed in range(first, first + count):
        end = planned(seed)
        ends[end] += 1
        if end != "planned":
            print(f"calendar {seed}: {end}", flush=True)
        if (seed + 1) % EACH == 0:
            print(f"up to {seed}: {ends['planned']} planned", flush=True)
    print(", ".join(f"{end}: {many}" for end, many in ends.most_common()))


if __name__ == "__main__":
    main()
