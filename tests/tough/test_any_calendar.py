"""Any calendar gives a plan: the rules as they come never clash with fixtures and breaks alone.

``python -m tests.benchmarks.any_calendar`` tries thousands.
"""

import pytest
from any_calendar import any_calendar

from constraints.load import load_rules
from optimiser.audit import audit_plan
from optimiser.engine.compact import compact
from optimiser.engine.search import Effort, minimise
from optimiser.season_build import build_season
from optimiser.solve import make_board

#: Calendars of at most this many weeks, for a quick look.
SHORT = 53
SEEDS = [seed for seed in range(30) if any_calendar(seed).weeks <= SHORT]
ANY_PLAN = Effort(deterministic=20.0, seconds=120.0, presolve="light")


@pytest.mark.parametrize("seed", SEEDS)
def test_a_calendar_by_chance_has_a_plan_that_keeps_every_rule(seed):
    calendar = any_calendar(seed)
    season = build_season(calendar.scenario(), calendar.fixtures)
    rules = load_rules({})

    board = make_board(season, rules)
    small = compact(board.model)
    found = minimise(small.model, ANY_PLAN)

    assert found.values, f"calendar {seed}: {found.status}"
    assert audit_plan(season, board.read(small.expand(found.values)), rules) == []
