"""Look over a plan that is there already."""

from collections.abc import Sequence
from pathlib import Path

import click

from cli.files.plan_file import read_plan
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.options import format_option, other_season_option, search_options
from cli.render.audit_text import audit_data, audit_text
from cli.render.audit_verdict import broken
from cli.saying import say_json
from cli.season.argument import plan_argument, season_argument, stands_in_force
from cli.season.progress import SeasonToday, progress
from cli.solving import NO_PLAN, document_of, near_shown, settings_of, solve_shown
from cli.squad_groups import as_planned, planned_alone
from optimiser.domain.plan import Plan
from optimiser.groups.group_rules import let_off
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import Outcome
from optimiser.response.readiness import UNITS
from optimiser.review.audit import audit_plan
from optimiser.rule import Rule

#: Exit code where a rule that must hold is broken.
BROKEN = 1


@click.command("audit")
@season_argument
@plan_argument
@click.option("--no-optimum", is_flag=True, help="Do not look for the best plan to compare with.")
@other_season_option
@search_options
@format_option("table", "json")
def audit_command(
    scenario: Path,
    plan: Path,
    no_optimum: bool,
    other_season: bool,
    seed: int | None,
    fast: bool,
    seconds: float | None,
    form: str,
) -> None:
    """Look over PLAN for SCENARIO: may it be used, what breaks, and the best there is.

    PLAN is JSON as `plan` writes it, a workbook that `report` wrote and a coach has changed since
    (.xlsx, sheet Season), or a table typed in CSV with the columns week, quality, band
    (code or rung) and dose (none, touch, reduced, full). Columns field and gym (sessions) and
    block may be added and are worked out where left out.

    Exit code 1: a rule that must hold is broken, or a file cannot be used.
    """
    loaded = read_scenario(scenario)
    usual = as_planned if no_optimum else planned_alone
    of_all = read_rules(loaded)
    loaded, rules = usual(plan, loaded, of_all)
    settings = settings_of(loaded, seed, fast, seconds)
    edited = other_season or stands_in_force(scenario, plan)
    there = progress(loaded, read_plan(plan, loaded, rules, other_season=edited))
    loaded, read = there.loaded, there.lived.plan
    told = document_of(loaded, rules, read, seed=settings.seed)
    waived = let_off(of_all, rules, read, loaded.season) if loaded.group else []
    outcome = None if no_optimum else _best(there, rules, settings)
    best, costs = None, None
    if outcome is not None and outcome.plan is not None:
        best = document_of(loaded, rules, outcome.plan, outcome.verdict, settings.seed)
        costs = _cost(loaded, rules, read), _cost(loaded, rules, outcome.plan)
    found = broken(audit_plan(loaded.season, read, rules), rules, there.lived.weeks)
    if form == "json":
        say_json(audit_data(told, best, found, waived))
    else:
        click.echo(audit_text(plan.name, told, best, found, costs, waived))
    if not found.usable:
        raise click.exceptions.Exit(BROKEN)


def _best(there: SeasonToday, rules: Sequence[Rule], settings: Settings) -> Outcome:
    """Return the best plan from the first open week on."""
    if there.decided is None:
        outcome = solve_shown(there.loaded, rules, settings)
    elif there.lived.weeks == len(there.loaded.season.weeks):
        return Outcome("planned", there.lived.plan, None, 0.0)
    else:
        near = near_shown(there.loaded.season, rules, there.lived.plan, settings, there.decided)
        outcome = near.outcome
    if outcome.plan is None:
        click.echo(f"No plan to compare with: {NO_PLAN[outcome.status]}", err=True)
    return outcome


def _cost(loaded: Loaded, rules: Sequence[Rule], plan: Plan) -> float:
    """Return the season cost of a plan, in readiness points."""
    return season_cost(loaded.season, rules, plan, loaded.scenario.rates).total / UNITS
