"""Whether the rules as they come have a plan on a calendar, and whether its waivers are true."""

from constraints.load import load_rules
from optimiser.domain.plan import Plan
from optimiser.domain.scenario import PhaseStart
from optimiser.domain.season import Season
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.engine.presolve import presolved
from optimiser.explain.waivers import Waived, waivers
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import make_board
from optimiser.joint_model.start import first_plan
from optimiser.review.audit import audit_plan
from optimiser.setup.build import build_season
from tests.tough.any_calendar import Calendar

#: A short search: it ends with the first plan.
ANY_PLAN = Effort(deterministic=20.0, seconds=900.0, presolve="light")
PLANNED = "planned"


def end_of(calendar: Calendar) -> str:
    """Return what became of a calendar: "planned", or what is wrong."""
    season = build_season(calendar.scenario(), calendar.fixtures)
    rules = load_rules({})
    board = make_board(season, rules)
    small = presolved(board.model)
    found = minimise(small.model, ANY_PLAN)
    values = small.expand(found.values) if found.values else []
    if found.status == "unknown":  # where one look is not enough, the search of `plan` has several
        found = first_plan(board, Settings())
        values = found.values
    if not values:
        return found.status
    plan = board.read(values)
    breaches = audit_plan(season, plan, rules)
    if breaches:
        return f"breaks {breaches[0].rule}"
    untrue = (waived for waived in waivers(season, plan, rules) if waived.fixtures)
    wrong = next((each for each in untrue if not _goes(calendar, season, plan, each)), None)
    return PLANNED if wrong is None else f"untrue waiver of {wrong.rule}: {wrong.words}"


def _goes(calendar: Calendar, season: Season, plan: Plan, waived: Waived) -> bool:
    """Tell whether a waiver goes away with the fixtures it names, all phases as they were."""
    left = tuple(match for match in calendar.fixtures if match.date not in waived.fixtures)
    scenario = calendar.scenario().model_copy(update={"fixtures": left, "phases": _phases(season)})
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


def _phases(season: Season) -> tuple[PhaseStart, ...]:
    return tuple(
        PhaseStart(first_week=week.number, phase=week.phase)
        for week in season.weeks
        if not week.index or week.phase is not season.weeks[week.index - 1].phase
    )
