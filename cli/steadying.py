"""A plan for the worst tenth of settings of the response, and what it is worth."""

from collections.abc import Sequence
from dataclasses import replace

from cli.files.scenario_file import Loaded
from optimiser.change.decided import Decided
from optimiser.domain.document import SteadyMatch, SteadyPart
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.engine.cp_sat_search import Found
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import Outcome
from optimiser.joint_model.verdict import judged
from optimiser.joint_model.worst_tenth import Steady, steady_plan
from optimiser.response.readiness import UNITS, most_important
from optimiser.review.rounding import kept
from optimiser.rule import Rule


def steadied(
    loaded: Loaded,
    rules: Sequence[Rule],
    usual: Outcome,
    settings: Settings,
    decided: Decided | None,
) -> tuple[Outcome, SteadyPart]:
    """Return the plan for the worst tenth of settings, judged as any other, and its worth."""
    assert usual.plan is not None
    assert usual.verdict is not None
    season = loaded.season
    found = steady_plan(season, rules, usual.plan, settings, decided)
    # the bound of a season in progress speaks of changes too, which are not counted here
    bound = 0.0 if decided else usual.verdict.bound
    cost = season_cost(season, rules, found.plan, settings.rates).total
    seconds = usual.seconds + found.seconds
    told = Found("feasible", [], cost, bound, seconds, 0.0, cut_short=usual.stopped)
    first = decided.weeks if decided else 0
    verdict = judged(season, rules, found.plan, told, settings.rates, settings.close, first=first)
    outcome = replace(usual, plan=found.plan, verdict=verdict, seconds=seconds)
    return outcome, _part(season, found)


def _part(season: Season, found: Steady) -> SteadyPart:
    return SteadyPart(
        settings=found.settings,
        cost=found.cost / UNITS,
        usual=found.before / UNITS,
        bound=found.bound / UNITS,
        matches=tuple(
            SteadyMatch(
                week=number_of(week),
                fixture=_name(season, week),
                ready=kept(ready),
                usual=kept(found.ready_before[week]),
            )
            for week, ready in found.ready.items()
        ),
    )


def _name(season: Season, week: int) -> str:
    """Return what the match is called by which a week is judged."""
    at = season.weeks[week]
    return most_important(at).name if at.fixtures else "the last week"
