"""``whatif --congest``: futures drawn by chance, each planned, and what they come to."""

import datetime as dt
import sys
import time
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import click
import joblib

from cli.files.changes_file import ChangedSeason, Origin, changed_season
from cli.files.errors import InputError
from cli.files.fixtures_file import read_fixtures_file
from cli.files.scenario_file import Loaded
from cli.options import PATH, SHARE, Command, RenamedOption, jobs_option, with_options
from cli.render.congest import congest_data, congest_text
from cli.render.search_progress import ProgressLine
from cli.saying import say_json, without_plan
from cli.season.changing import changed_progress
from cli.season.progress import SeasonToday, begun
from cli.solving import NO_PLAN, solve_first
from constraints.load import load_rules
from optimiser.batch.case import Case, make_case
from optimiser.batch.engine import Crew
from optimiser.batch.row import PLANNED, Result
from optimiser.change.congest import Draw, Drawn, draw_futures, spread_rounds
from optimiser.change.congest_report import FutureOutcome, report
from optimiser.change.decided import Decided
from optimiser.change.many import plan_many
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.setup_error import SetupError
from optimiser.joint_model.effort import Settings
from optimiser.rule import Rule

ROUNDS = 5


def congest_options(command: Command) -> Command:
    """Add ``--congest`` and how its futures are drawn."""
    options = [
        click.option("--congest", is_flag=True, help="Draw futures of a cup and postponements."),
        click.option(
            "--draws", "--futures", "draws", cls=RenamedOption,
            type=click.IntRange(1, 100_000), default=100, show_default=True,
            help="How many futures are drawn.",
        ),
        click.option(
            "--rounds", type=click.IntRange(0, 20), default=None,
            help=f"Cup rounds on free Wednesdays; left out, {ROUNDS}.",
        ),
        click.option(
            "--cup-rounds", type=PATH,
            help="The cup rounds as a fixture list (.csv or .ics) instead.",
        ),
        click.option(
            "--through", type=SHARE, default=0.5, show_default=True,
            help="Chance of getting through a round.",
        ),
        click.option(
            "--postpone", type=SHARE, default=0.05, show_default=True,
            help="Chance that a fixture is put off to the next free midweek day.",
        ),
        click.option(
            "--indoors", multiple=True, metavar="COMPETITION",
            help="Matches of this competition are never put off; may be given again.",
        ),
        jobs_option,
    ]  # fmt: skip
    return with_options(options, command)


def congestion(
    loaded: Loaded, rules: Sequence[Rule], settings: Settings, form: str, options: dict[str, Any]
) -> None:
    """Draw futures, plan each that differs once, and print what they come to.

    In a season in progress they are drawn from the days to come, and what is over stands.
    """
    there = begun(loaded, rules)
    after = there.day if there and there.day else dt.date.min
    rounds = _rounds(loaded, options, after)
    draw = Draw(
        futures=options["draws"],
        rounds=rounds,
        through=options["through"],
        postpone=options["postpone"],
        indoors=frozenset(options["indoors"]),
        seed=settings.seed,
        after=after,
    )
    drawn = _drawn(loaded, draw, options["cup_rounds"])
    seasons = [_season(loaded, each) for each in drawn]
    plan = there.lived.plan if there else base_plan(loaded, rules, settings)
    if there is not None:
        seasons = [_lived(there, each) for each in seasons]
        loaded = there.loaded
    decided = there.decided if there else None
    cases = [_case(each, settings.seed, decided) for each in seasons]
    found = planned(cases, plan, options["jobs"] or joblib.cpu_count(), "different futures")
    lived = [
        FutureOutcome(
            draw_, each.loaded.season, each.pairs, _status(found[case.key]), found[case.key].plan
        )
        for draw_, each, case in zip(drawn, seasons, cases, strict=True)
    ]
    told = report(loaded.season, plan, lived, rounds, len(found))
    if form == "json":
        say_json(congest_data(loaded, draw, told))
    else:
        first = there.lived.weeks if there else 0
        click.echo(congest_text(loaded.season, draw, told, first))


def _lived(there: SeasonToday, each: ChangedSeason) -> ChangedSeason:
    """Return a future on the day it is, with what was done in it."""
    return replace(each, loaded=changed_progress(there, each.loaded).loaded)


def _rounds(loaded: Loaded, options: dict[str, Any], after: dt.date) -> tuple[Fixture, ...]:
    file, count = options["cup_rounds"], options["rounds"]
    if file is not None:
        if count is not None:
            raise click.UsageError("give --rounds or --cup-rounds, not both")
        listed = [item.fixture for item in read_fixtures_file(file)]
        return tuple(sorted(listed, key=lambda fixture: fixture.date))
    try:
        return spread_rounds(loaded.season, ROUNDS if count is None else count, after)
    except SetupError as error:
        raise InputError.from_setup(loaded.path, error) from None


def _drawn(loaded: Loaded, draw: Draw, file: Path | None) -> list[Drawn]:
    try:
        return draw_futures(loaded.season, draw)
    except SetupError as error:
        raise InputError.from_setup(file or loaded.path, error) from None


def _season(loaded: Loaded, drawn: Drawn) -> ChangedSeason:
    return changed_season(loaded, "future", drawn.edits, Origin("a drawn future"))


def base_plan(loaded: Loaded, rules: Sequence[Rule], settings: Settings) -> Plan:
    """Return the plan of the season as it stands, or leave with the reason there is none."""
    outcome = solve_first(loaded, rules, settings)
    if outcome.plan is None:
        click.echo(f"{loaded.path}, as it stands: no plan: {NO_PLAN[outcome.status]}", err=True)
        raise without_plan(outcome.status)
    return outcome.plan


def _case(each: ChangedSeason, seed: int, decided: Decided | None) -> Case:
    there = each.loaded
    return make_case(
        there.season,
        each.rules,
        there.scenario.rules,
        rules_name="as written",
        digest=there.digest,
        seed=seed,
        decided=decided,
    )


def planned(cases: Sequence[Case], base: Plan, jobs: int, what: str) -> dict[str, Result]:
    """Plan every case of its own once, with a line of progress; equal cases share a key."""
    total = len({case.key for case in cases})
    line, began = ProgressLine(sys.stderr), time.perf_counter()
    found: dict[str, Result] = {}
    try:
        for key, result in plan_many(cases, base, Crew(jobs), load_rules):
            found[key] = result
            took = time.perf_counter() - began
            line.show(f"{len(found)} of {total} {what}, {took:.0f} s")
    finally:
        line.clear()
    return found


def _status(row: Result) -> str:
    if row.status in PLANNED:
        return "planned"
    return "clash" if row.status == "clash" else "unknown"
