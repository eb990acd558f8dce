"""``plan --futures``: one shared plan, and a branch for each way the season may go."""

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import click
import joblib

from cli.explaining import clash_in_short
from cli.files.changes_file import GivenChanges, Origin, changed_season, read_futures
from cli.files.errors import InputError
from cli.files.scenario_file import Loaded
from cli.files.toml_lines import line_of
from cli.main import CLASH
from cli.render.hedge import ToldBranch, hedge_data, hedge_text
from cli.render.search_progress import ProgressLine
from cli.render.signs import signs_for
from cli.saying import save, say_json
from cli.season.changing import changed_progress, check_edits_ahead
from cli.season.documents import document_in_progress
from cli.season.plan_bytes import plan_bytes
from cli.season.progress import SeasonToday
from cli.solving import document_of
from optimiser.change.robust import Future, Hedged, NoSharedPlanError, branch_week, hedge
from optimiser.domain.changes import Changes, Futures, FutureSeason
from optimiser.domain.document import PlanDocument
from optimiser.domain.plan import Plan
from optimiser.domain.setup_error import SetupError
from optimiser.domain.week_number import index_of
from optimiser.joint_model.effort import Settings


@dataclass(frozen=True)
class PossibleSeason:
    """One way the season may go, with its scenario; in a season in progress, on the day it is."""

    loaded: Loaded
    future: Future
    there: SeasonToday | None = None


def plan_futures(
    loaded: Loaded,
    path: Path,
    settings: Settings,
    form: str,
    out: Path | None,
    there: SeasonToday | None,
    *,
    plain: bool,
) -> None:
    """Plan for the futures in ``path``, print the shared plan and its branches, save them."""
    if form == "csv":
        raise click.BadParameter("must be table or json with --futures", param_hint="--format")
    asked, text = read_futures(path)
    if out is not None and out.suffix.lower() != ".json":
        raise click.BadParameter("must end in .json with --futures", param_hint="--out")
    ways = _ways(loaded, asked, path, text, there)
    week = _week(ways, asked, path, text)
    found = _hedged(ways, asked, week, settings)
    told = ToldBranch(found, _documents(ways, found, settings))
    if out is not None:
        _save(out, told)
    if form == "json":
        say_json(hedge_data(loaded, told))
    else:
        click.echo(hedge_text(told, signs_for(sys.stdout.encoding, plain=plain)))


def _ways(
    loaded: Loaded, asked: Futures, path: Path, text: str, there: SeasonToday | None
) -> list[PossibleSeason]:
    total = sum(future.weight for future in asked.futures)
    return [
        _way(loaded, each, each.weight / total, Origin(str(path), text, ("futures", number)), there)
        for number, each in enumerate(asked.futures)
    ]


def _way(
    loaded: Loaded, each: FutureSeason, share: float, origin: Origin, there: SeasonToday | None
) -> PossibleSeason:
    if there is not None and each.edits:
        check_edits_ahead(GivenChanges(Changes(name=each.name, edits=each.edits), origin), there)
    changed = changed_season(loaded, each.name, each.edits, origin)
    if there is None:
        future = Future(each.name, share, changed.loaded.season, changed.rules)
        return PossibleSeason(changed.loaded, future)
    then = changed_progress(there, changed.loaded)
    season = then.loaded.season
    return PossibleSeason(
        then.loaded, Future(each.name, share, season, changed.rules, then.decided), then
    )


def _week(ways: Sequence[PossibleSeason], asked: Futures, path: Path, text: str) -> int:
    given = None if asked.branch_week is None else index_of(asked.branch_week)
    try:
        return branch_week([way.future for way in ways], given)
    except SetupError as error:
        line = line_of(text, (error.where,))
        where = f"line {line}, {error.where}" if line else error.where
        raise InputError.from_setup(path, error, where) from None


def _hedged(
    ways: Sequence[PossibleSeason], asked: Futures, week: int, settings: Settings
) -> Hedged:
    futures = [way.future for way in ways]
    quick = replace(settings, quick=True)
    line = ProgressLine(sys.stderr)
    try:
        return hedge(
            futures,
            asked.aim,
            week,
            quick,
            quick,
            jobs=min(len(futures), joblib.cpu_count()),
            told=line.show,
        )
    except NoSharedPlanError as error:
        line.clear()
        _no_plan(futures, error, week)
        raise click.exceptions.Exit(CLASH) from None
    finally:
        line.clear()


def _no_plan(futures: Sequence[Future], error: NoSharedPlanError, week: int) -> None:
    if error.clash is None:
        click.echo(
            f"No shared plan up to week {week} was found that every future can keep, which proves "
            "nothing; an earlier branch_week leaves more room.",
            err=True,
        )
        return
    click.echo(f"The future {error.clash!r} has no plan of its own.", err=True)
    future = next(each for each in futures if each.name == error.clash)
    click.echo(clash_in_short(future.season, future.rules, future.decided), err=True)


def _documents(
    ways: Sequence[PossibleSeason], found: Hedged, settings: Settings
) -> tuple[PlanDocument, ...]:
    return tuple(
        _document(way, branch.plan, settings.seed)
        for way, branch in zip(ways, found.branches, strict=True)
    )


def _document(way: PossibleSeason, plan: Plan, seed: int) -> PlanDocument:
    rules = way.future.rules
    if way.there is not None:
        return document_in_progress(way.there, rules, plan, None, seed)
    return document_of(way.loaded, rules, plan, seed=seed)


def _save(out: Path, told: ToldBranch) -> None:
    for number, document in enumerate(told.documents, 1):
        save(out.with_name(f"{out.stem}-{number}.json"), plan_bytes(document))
