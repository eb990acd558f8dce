"""What people ask of a week's days, kept in the season's folder."""

import datetime as dt

import click

from cli.files.scenario_file import Loaded
from cli.season.argument import seen
from cli.season.commit import Action, commit
from cli.season.days_csv import Asked, written
from cli.season.folder import DAYS, Folder
from optimiser.days.day import minutes_of
from optimiser.days.holds import DayHold
from optimiser.days.week_plan import WeekPlan


def locked(week: WeekPlan) -> list[DayHold]:
    """Return what holds everything of a week on its day, at its start."""
    sessions = [
        DayHold(session.place, at, start=_start(session.start))
        for at, day in enumerate(week.days)
        for session in day.sessions
    ]
    practices = [
        DayHold("practice", at, start=_start(day.practice.start))
        for at, day in enumerate(week.days)
        if day.practice
    ]
    return [*sessions, *practices]


def _start(text: str | None) -> int | None:
    return None if text is None else minutes_of(dt.time.fromisoformat(text))


def keep_asked(folder: Folder, loaded: Loaded, asked: Asked, words: str) -> None:
    """Write what is asked of all weeks; an action that can be undone.

    Raises
    ------
    ChangedMeanwhileError
        If somebody has written into the file since the command began; it is left as it is.
    """
    stands = {DAYS: seen(folder).get(DAYS)}
    text = written(asked, loaded.season)
    commit(folder, Action("week", words), {DAYS: text.encode("utf-8")}, stands)
    click.echo(f"Kept in {folder.days}.", err=True)
