"""A season as its files say it: read, with the plan that is in force or beside it."""

import datetime as dt
from dataclasses import dataclass, replace
from pathlib import Path

from cli.files.errors import InputError
from cli.files.plan_file import read_plan
from cli.files.plan_json import read_document
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.season.commit import open_folder
from cli.season.done_csv import read_done
from cli.season.folder import Folder, folder_of
from cli.season.progress import on_day
from cli.serve.keeping import Files, files_of
from cli.serve.side import SeasonSide
from optimiser.domain.plan import Plan
from optimiser.joint_model.effort import CLOSE
from optimiser.joint_model.verdict import Verdict, judged, told_before
from optimiser.response.readiness import UNITS
from optimiser.rule import Rule

OTHER = "The plan on file was made before the files were changed; it is fitted to them now."


@dataclass(frozen=True)
class Opened:
    """A season as it was read.

    Parameters
    ----------
    loaded
        As on file, without what was done.
    words
        What a person must know of it; empty if nothing.
    """

    loaded: Loaded
    side: SeasonSide
    files: Files
    words: str = ""


def open_season(path: Path, day: dt.date, plan: Path | None = None) -> Opened:
    """Return the season of a scenario file, or of the folder it is in.

    Parameters
    ----------
    plan
        The plan to begin with; left out, the one in force, or one saved beside a scenario.

    Raises
    ------
    InputError
        If a file cannot be used.
    """
    folder = folder_of(path)
    if folder is not None:
        open_folder(folder.path)  # a write that was broken off is finished first
    loaded = read_scenario(path)
    rules = tuple(read_rules(loaded))
    files = files_of(loaded)
    if folder is not None and plan is None:
        return _in_folder(folder, loaded, rules, files, day)
    if plan is not None:
        read = read_plan(plan, loaded, rules)
        side = SeasonSide(loaded, rules, read)
        return Opened(loaded, replace(side, verdict=_before(plan, side, read)), files)
    return _alone(loaded, rules, files)


def _alone(loaded: Loaded, rules: tuple[Rule, ...], files: Files) -> Opened:
    """Return a scenario that stands alone, by the plan saved beside it if that fits."""
    path, side = loaded.path.with_suffix(".plan.json"), SeasonSide(loaded, rules)
    if not path.is_file():
        return Opened(loaded, side, files)
    try:
        plan = read_plan(path, loaded, rules, other_season=True)
    except InputError:
        return Opened(loaded, side, files)
    return _with_plan(loaded, replace(side, plan=plan), files, path)


def _with_plan(loaded: Loaded, side: SeasonSide, files: Files, path: Path) -> Opened:
    """Return a season with a plan of its own file, which may be older than the season's."""
    assert side.plan is not None
    if read_document(path).scenario.digest != loaded.digest:
        return Opened(loaded, replace(side, provisional=True), files, OTHER)
    return Opened(loaded, replace(side, verdict=_before(path, side, side.plan)), files)


def _in_folder(
    folder: Folder, loaded: Loaded, rules: tuple[Rule, ...], files: Files, day: dt.date
) -> Opened:
    """Return a season in progress, by the plan in force."""
    side = SeasonSide(loaded, rules)
    if not folder.plan.exists():
        return Opened(loaded, side, files)
    try:
        plan = read_plan(folder.plan, loaded, rules, other_season=True)
    except InputError as error:
        return Opened(loaded, side, files, f"The plan in force does not fit: {error.message}")
    sessions = read_done(folder.done, loaded.season, day)
    there = on_day(loaded, plan, sessions, day, folder)
    side = SeasonSide(there.loaded, rules, there.lived.plan, there=there)
    return _with_plan(loaded, side, files, folder.plan)


def _before(path: Path, side: SeasonSide, plan: Plan) -> Verdict | None:
    """Return what a file says was proven of its plan, judged again with the plan as it is."""
    told = read_document(path).season if path.suffix.lower() == ".json" else None
    if told is None:
        return None
    return judged(
        side.season,
        side.rules,
        plan,
        told_before(told),
        side.loaded.scenario.rates,
        CLOSE,
        changes=round(told.changes * UNITS),
        first=side.over,
    )
