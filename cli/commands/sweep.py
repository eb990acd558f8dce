"""A grid of rule parameters."""

import itertools
import re
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click
import joblib

from cli.congesting import base_plan
from cli.edits import read_value
from cli.files.changes_file import ChangedSeason, Origin, changed_season
from cli.files.plan_file import read_plan
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.options import base_option, format_option, jobs_option, out_option, search_options
from cli.render.json_text import json_text
from cli.render.search_progress import ProgressLine
from cli.render.sweep import sweep_csv, sweep_data, sweep_text
from cli.saying import save, say_json
from cli.season.argument import in_force, season_argument
from cli.season.progress import SeasonToday, begun
from cli.solving import settings_of
from constraints.load import load_rules
from optimiser.batch.case import make_case
from optimiser.batch.engine import Crew
from optimiser.change.sweep import Point, Swept, sweep
from optimiser.domain.edits import Set
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.joint_model.effort import Settings
from optimiser.rule import Rule

MOST_POINTS = 1000
GRID = re.compile(r"\s*([a-z_]+)\.([\w.]+)\s*=\s*(.+)")
RANGE = re.compile(r"\s*(-?\d+)\s*\.\.\s*(-?\d+)\s*")
FORM = "RULE.PARAMETER=VALUE,VALUE,..."
Axis = tuple[str, str, list[Any]]


@click.command("sweep")
@season_argument
@click.option(
    "--grid",
    "grids",
    multiple=True,
    required=True,
    metavar=FORM,
    help="Values of one parameter, or a range such as 2..5; give it again for a grid.",
)
@base_option
@out_option("Save the table as .csv or .json.", ".csv", ".json")
@jobs_option
@format_option("table", "csv", "json")
@search_options
def sweep_command(
    scenario: Path,
    grids: tuple[str, ...],
    base: Path | None,
    out: Path | None,
    jobs: int | None,
    form: str,
    seed: int | None,
    fast: bool,
    seconds: float | None,
) -> None:
    """Plan SCENARIO at every point of a grid of rule parameters, and show one table.

    Points at which the rules clash stay in it. What is proven at a looser point is used at tighter
    ones. In a season that has begun, what is over stands, and every point is planned from today on.
    """  # fmt: skip
    loaded = read_scenario(scenario)
    rules = read_rules(loaded)
    there = begun(loaded, rules)
    axes = [_axis(text) for text in grids]
    settings = settings_of(loaded, seed, fast, seconds)
    points = _points(there.loaded if there else loaded, axes, settings.seed, there)
    stands = _stands(loaded, rules, settings, base or in_force(scenario), there)
    season, digest = (there.loaded if there else loaded).season, loaded.digest
    first = there.lived.weeks if there else 0
    swept = _swept(season, points, stands, jobs or joblib.cpu_count(), first)
    data = sweep_data(season, digest, stands, swept)
    if out is not None:
        as_csv = out.suffix.lower() == ".csv"
        save(out, (sweep_csv(season, swept) if as_csv else f"{json_text(data)}\n").encode())
    if form == "json":
        say_json(data)
    elif form == "csv":
        click.echo(sweep_csv(season, swept), nl=False)
    else:
        click.echo(sweep_text(season, stands, swept, first))


def _stands(
    loaded: Loaded,
    rules: Sequence[Rule],
    settings: Settings,
    saved: Path | None,
    there: SeasonToday | None,
) -> Plan:
    """Return the plan as it stands, in a season in progress as it was lived."""
    if there is not None:
        return there.lived.plan
    return read_plan(saved, loaded, rules) if saved else base_plan(loaded, rules, settings)


def _axis(text: str) -> Axis:
    found = GRID.fullmatch(text)
    if not found:
        raise click.BadParameter(f"must be {FORM} (got {text!r})", param_hint="--grid")
    rule, parameter, values = found.groups()
    span = RANGE.fullmatch(values)
    if span:
        first, last = int(span[1]), int(span[2])
        listed: Any = list(range(first, last + 1))
    else:
        listed = read_value(f"[{values}]")
        if isinstance(listed, str):
            listed = [read_value(part.strip()) for part in values.split(",")]
    if not 1 <= len(listed) <= MOST_POINTS:
        raise click.BadParameter(
            f"must have 1 to {MOST_POINTS} values (got {len(listed)})", param_hint="--grid"
        )
    return rule, parameter, listed


def _points(loaded: Loaded, axes: list[Axis], seed: int, there: SeasonToday | None) -> list[Point]:
    count = 1
    for _, _, values in axes:
        count *= len(values)
    if count > MOST_POINTS:
        raise click.BadParameter(
            f"a grid may have {MOST_POINTS} points (got {count})", param_hint="--grid"
        )
    return [
        _point(loaded, axes, values, seed, there)
        for values in itertools.product(*(values for _, _, values in axes))
    ]


def _point(
    loaded: Loaded, axes: list[Axis], values: tuple[Any, ...], seed: int, there: SeasonToday | None
) -> Point:
    edits = [
        Set(rule=rule, parameter=parameter, value=value)
        for (rule, parameter, _), value in zip(axes, values, strict=True)
    ]
    labels = tuple(f"--grid {edit.rule}.{edit.parameter}={edit.value}" for edit in edits)
    origin = Origin("grid", labels=labels)
    changed: ChangedSeason = changed_season(loaded, "point", edits, origin)
    case = make_case(
        loaded.season,
        changed.rules,
        changed.loaded.scenario.rules,
        rules_name="point",
        digest=loaded.digest,
        seed=seed,
        decided=there.decided if there else None,
    )
    named = tuple((f"{edit.rule}.{edit.parameter}", edit.value) for edit in edits)
    return Point(named, case)


def _swept(season: Season, points: list[Point], base: Plan, jobs: int, first: int) -> list[Swept]:
    line, began = ProgressLine(sys.stderr), time.perf_counter()
    found: list[Swept] = []
    try:
        for each in sweep(season, points, base, Crew(jobs), load_rules, first=first):
            found.append(each)
            took = time.perf_counter() - began
            line.show(f"{len(found)} of {len(points)} points, {took:.0f} s")
    finally:
        line.clear()
    return sorted(found, key=lambda each: each.index)
