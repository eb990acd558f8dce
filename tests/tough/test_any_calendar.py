"""Any calendar gives a plan: the rules as they come never clash with fixtures and breaks alone.

``python -m tests.benchmarks.any_calendar`` tries thousands.
"""

import pytest
from any_calendar import any_calendar

from constraints.load import load_rules
from optimiser.audit import audit_plan
from optimiser.domain.scenario import PhaseStart
from optimiser.engine.compact import compact
from optimiser.engine.search import Effort, minimise
from optimiser.season_build import build_season
from optimiser.solve import make_board
from optimiser.waivers import waivers

#: Calendars of at most this many weeks, for a quick look.
SHORT = 53
SEEDS = [seed for seed in range(20) if any_calendar(seed).weeks <= SHORT]
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
    plan = board.read(small.expand(found.values))
    assert audit_plan(season, plan, rules) == []
    for waived in waivers(season, plan, rules):
        assert not waived.fixtures or gone(calendar, season, plan, waived), waived.words


def gone(calendar, season, plan, waived):
    """Tell whether a waiver goes away with the fixtures it names, all phases as they were."""
    left = [match for match in calendar.fixtures if match.date not in waived.fixtures]
    phases = tuple(
        PhaseStart(first_week=week.number, phase=week.phase)
        for week in season.weeks
        if not week.index or week.phase is not season.weeks[week.index - 1].phase
    )
    scenario = calendar.scenario().model_copy(update={"fixtures": left, "phases": phases})
    free = build_season(scenario, left)
    rule = next(each for each in load_rules({}) if each.name == waived.rule)
    still = {
        week
        for each in waivers(free, plan, [rule])
        if each.part == waived.part
        if not waived.qualities or set(each.qualities) & set(waived.qualities)
        for week in each.weeks
    }
    return not still & set(waived.weeks)
