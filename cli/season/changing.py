"""Changes of a season in progress: what lies behind today is not theirs to change."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from cli.files.changes_file import GivenChanges
from cli.files.errors import InputError
from cli.files.safe_write import write_bytes
from cli.files.scenario_file import Loaded
from cli.season.progress import SeasonToday, on_day
from cli.season.rewrite import rewritten
from optimiser.domain.edits import Edit, PinChoice
from optimiser.domain.edits.work import EditError
from optimiser.domain.setup_error import SetupError

#: Fields of edits that name a day.
DAYS = ("date", "to", "first")


def changed_progress(there: SeasonToday, changed: Loaded) -> SeasonToday:
    """Return a changed season on the same day, with the same things done in it."""
    if there.day is None:
        lived = replace(there.lived, season=changed.season)
        return SeasonToday(None, None, there.planned, changed, lived, changed.season)
    return on_day(changed, there.planned, there.sessions, there.day, there.folder)


def check_edits_ahead(given: GivenChanges, there: SeasonToday) -> None:
    """Refuse edits of days and weeks that are over.

    Raises
    ------
    InputError
        With the edit.
    """
    if there.day is None:
        return
    for index, edit in enumerate(given.changes.edits):
        error = _behind(index, edit, there.day, there.lived.weeks)
        if error is not None:
            raise given.origin.error(error)


def _behind(index: int, edit: Edit, today: dt.date, weeks: int) -> SetupError | None:
    do = "the past stands as it was; record it with `done`"
    for name in DAYS:
        day = getattr(edit, name, None)
        if isinstance(day, dt.date) and day < today:
            return EditError(index, name, f"must not lie before today, {today}", str(day), do)
    if isinstance(edit, PinChoice) and edit.week <= weeks:
        must = f"must be week {weeks + 1} or later"
        return EditError(index, "week", must, f"{edit.week}, which is over", do)
    return None


def changes_words(given: GivenChanges) -> str:
    """Return changes in a line, for the list of versions."""
    labels = given.origin.labels
    return "; ".join(labels) if labels else given.changes.name


def write_season(out: Path, loaded: Loaded, edits: Sequence[Edit]) -> None:
    """Write the scenario after edits, so that the plan saved for it can be used on.

    Raises
    ------
    InputError
        If it would take the place of the scenario it was made from.
    """
    if out.exists() and out.samefile(loaded.path):
        must = "must be another file than the scenario"
        raise InputError(out, "", must, "the scenario itself", "name the plan otherwise")
    files = rewritten(loaded, edits, out).files
    for name, data in files.items():
        write_bytes(out.parent / name, data)
        click.echo(f"Wrote {out.parent / name}.", err=True)
