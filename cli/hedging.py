"""``plan --futures``: one shared plan, and a branch for each way the season may go."""

import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click
import joblib

from cli.files.changes_file import Origin, changed_season, read_futures
from cli.files.errors import InputError
from cli.files.safe_write import write_text
from cli.files.scenario_file import Loaded
from cli.files.toml_lines import line_of
from cli.main import CLASH
from cli.render.hedge import Told, hedge_data, hedge_text
from cli.render.json_text import json_text
from cli.render.progress import ProgressLine
from cli.render.signs import signs_for
from cli.solving import document_of
from cli.why_not import why_not
from optimiser.domain.changes import Futures
from optimiser.domain.document import PlanDocument
from optimiser.domain.setup_error import SetupError
from optimiser.together.settings import Settings
from optimiser.whatif.robust import Future, Hedged, NoSharedPlanError, branch_week, hedge


def plan_futures(
    loaded: Loaded, path: Path, settings: Settings, form: str, out: Path | None, *, plain: bool
) -> None:
    """Plan for the futures in ``path``, print the shared plan and its branches, save them."""
    if form == "csv":
        raise click.BadParameter("must be table or json with --futures", param_hint="--format")
    asked, text = read_futures(path)
    if out is not None and out.suffix.lower() != ".json":
        raise click.BadParameter("must end in .json with --futures", param_hint="--out")
    seasons = _seasons(loaded, asked, path, text)
    week = _week(seasons, asked, path, text)
    found = _hedged(seasons, asked, week, settings)
    told = Told(found, _documents(loaded, seasons, found, settings))
    if out is not None:
        _save(out, told)
    if form == "json":
        click.echo(json_text(hedge_data(loaded, told), sys.stdout.encoding))
    else:
        click.echo(hedge_text(told, signs_for(sys.stdout.encoding, plain=plain)))


def _seasons(loaded: Loaded, asked: Futures, path: Path, text: str) -> list[tuple[Loaded, Future]]:
    total = sum(future.weight for future in asked.futures)
    found = []
    for number, each in enumerate(asked.futures):
        origin = Origin(str(path), text, ("futures", number))
        changed = changed_season(loaded, each.name, each.edits, origin)
        season = changed.loaded.season
        future = Future(each.name, each.weight / total, season, changed.rules)
        found.append((changed.loaded, future))
    return found


def _week(seasons: Sequence[tuple[Loaded, Future]], asked: Futures, path: Path, text: str) -> int:
    given = None if asked.branch_week is None else asked.branch_week - 1
    try:
        return branch_week([future for _, future in seasons], given)
    except SetupError as error:
        line = line_of(text, (error.where,))
        where = f"line {line}, {error.where}" if line else error.where
        raise InputError.from_setup(path, error, where) from None


def _hedged(
    seasons: Sequence[tuple[Loaded, Future]], asked: Futures, week: int, settings: Settings
) -> Hedged:
    futures = [future for _, future in seasons]
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
    click.echo(why_not(future.season, future.rules), err=True)


def _documents(
    loaded: Loaded,
    seasons: Sequence[tuple[Loaded, Future]],
    found: Hedged,
    settings: Settings,
) -> tuple[PlanDocument, ...]:
    return tuple(
        document_of(there, future.rules, branch.plan, seed=settings.seed)
        for (there, future), branch in zip(seasons, found.branches, strict=True)
    )


def _save(out: Path, told: Told) -> None:
    for number, document in enumerate(told.documents, 1):
        path = out.with_name(f"{out.stem}-{number}.json")
        write_text(path, f"{json_text(document.model_dump(mode='json'))}\n")
        click.echo(f"Wrote {path}.", err=True)
