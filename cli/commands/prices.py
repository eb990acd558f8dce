"""Say what each rule costs the season."""

import os
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from cli.explaining import clash_now
from cli.files.plan_file import read_plan
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.options import format_option, plan_option, search_options
from cli.render.prices import prices_csv, prices_data, prices_table
from cli.render.search_progress import ProgressLine
from cli.saying import say_json, without_plan
from cli.season.argument import named_plan, season_argument
from cli.season.progress import SeasonToday, check_ahead, progress
from cli.solving import NO_PLAN, settings_of, solve_first
from cli.squad_groups import planned_alone
from optimiser.domain.plan import Plan
from optimiser.explain.limits import limits
from optimiser.explain.prices.price import near_itself, price_rules
from optimiser.joint_model.effort import Settings
from optimiser.rule import Rule


def _short(settings: Settings) -> Settings:
    """Return settings for one search of many."""
    return replace(settings, quick=True, workers=1)


@click.command("prices")
@season_argument
@plan_option
@search_options
@click.option(
    "--processes",
    type=click.IntRange(1, 64),
    help="Searches at a time; left out, as many as there are cores, two at most.",
)
@format_option("table", "json", "csv")
def prices_command(
    scenario: Path,
    plan: Path | None,
    seed: int | None,
    fast: bool,
    seconds: float | None,
    processes: int | None,
    form: str,
) -> None:
    """Say what each rule of SCENARIO costs: at the match it costs most, and in the season.

    Each rule is dropped once and made one step looser once, and the season planned anew from the
    same plan. A rule that keeps people safe is marked; its price is no reason to drop it.
    """
    loaded = read_scenario(scenario)
    rules: Sequence[Rule] = read_rules(loaded)
    known = named_plan(scenario, plan)
    if known is not None:
        loaded, rules = planned_alone(known, loaded, rules)
    settings = settings_of(loaded, seed, fast, seconds)
    processes = processes or min(2, os.cpu_count() or 1)
    start = read_plan(known, loaded, rules) if known else _searched(loaded, rules, settings)
    there = progress(loaded, start)
    check_ahead(there)
    loaded = there.loaded
    base = _plan(there, rules, settings, processes)
    short = _short(settings)
    line = ProgressLine(sys.stderr)
    try:
        prices = price_rules(
            loaded.season,
            rules,
            base,
            short,
            processes=processes,
            decided=there.decided,
            told=lambda done, all_: line.show(f"prices: {done} of {all_} searches"),
        )
    finally:
        line.clear()
    if form == "json":
        say_json(prices_data(loaded.season, base, prices))
    elif form == "csv":
        click.echo(prices_csv(prices), nl=False)
    else:
        found = limits(loaded.season, base, rules)
        click.echo(prices_table(loaded.season, base, rules, prices, found))


def _plan(there: SeasonToday, rules: Sequence[Rule], settings: Settings, processes: int) -> Plan:
    """Return the season's plan, searched once more from itself with the limits of the others.

    Without that, what more searching finds would be credited to the rules.
    """
    season, start = there.loaded.season, there.lived.plan
    return near_itself(season, rules, start, _short(settings), processes, there.decided)


def _searched(loaded: Loaded, rules: Sequence[Rule], settings: Settings) -> Plan:
    outcome = solve_first(loaded, rules, replace(settings, quick=True))
    if outcome.plan is not None:
        return outcome.plan
    click.echo(f"{loaded.path}: no plan: {NO_PLAN[outcome.status]}", err=True)
    if outcome.status == "clash":
        click.echo(f"\n{clash_now(loaded, rules)}", err=True)
    raise without_plan(outcome.status)
