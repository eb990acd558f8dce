"""The days of a season's weeks, as its scenario and its rules want them."""

import datetime as dt
import re
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple, cast

import click

from cli.files.own_work import read_library, read_preparation
from cli.files.plan_json import read_document
from cli.files.scenario_file import Loaded
from cli.files.squad_ages import young_in
from cli.season.days_csv import read_asked
from cli.season.folder import folder_of
from constraints.session_caps import SessionCaps
from constraints.spacing import Spacing
from optimiser.days.day import minutes_of
from optimiser.days.done_days import done_days
from optimiser.days.holds import DayHold, Thing
from optimiser.days.school import Pupils
from optimiser.days.spacing_settings import YOUNG_DAYS, DaySettings, SessionLimits
from optimiser.days.week import WeekMaker
from optimiser.domain.document import SessionDayPart
from optimiser.domain.season import Season
from optimiser.domain.week_number import index_of
from optimiser.domain.weekday import Weekday
from optimiser.rule import Rule


class Starts(NamedTuple):
    """When every session of a place starts, over what the scenario says."""

    field: dt.time | None = None
    gym: dt.time | None = None


NO_STARTS = Starts()
DAYS = "|".join(day.value for day in Weekday)
HOLD = re.compile(
    rf"(?P<thing>field|gym|practice):(?P<day>{DAYS})(@(?P<at>([01]\d|2[0-3]):[0-5]\d))?"
)


def week_maker(loaded: Loaded, rules: Sequence[Rule], starts: Starts = NO_STARTS) -> WeekMaker:
    """Return what puts the weeks of a season on days.

    Spacings are those of the rule `spacing` and session lengths those of `session_caps`; a rule
    that is not in use leaves their defaults. With under-18s in the squad file of the scenario no
    two days with a session are in a row, for all: sessions are shared; where all are, planning
    knows that too.
    """
    usual = DaySettings(**Spacing.for_under_18) if loaded.season.under_18 else DaySettings()
    settings: DaySettings = next((rule for rule in rules if isinstance(rule, Spacing)), usual)
    young = young_in(loaded.scenario, loaded.path.parent)[0]
    if settings.session_days < YOUNG_DAYS and young and not loaded.season.under_18:
        settings = settings.model_copy(update={"session_days": YOUNG_DAYS})
    given = {"field_at": starts.field, "gym_at": starts.gym}
    settings = settings.model_copy(update={k: v for k, v in given.items() if v is not None})
    caps = next((rule for rule in rules if isinstance(rule, SessionCaps)), SessionCaps())
    limits = SessionLimits(
        field_minutes=caps.field_minutes, gym_minutes=caps.gym_minutes, pieces=caps.pieces
    )
    practice = loaded.scenario.practice
    return WeekMaker(
        loaded.season,
        settings,
        limits,
        practice,
        loaded.calendar,
        read_preparation(loaded),
        read_library(loaded),
        asked_of(loaded),
        _pupils(loaded, settings, young),
        done_days(loaded.season.weeks[0].monday, loaded.done, loaded.today),
        loaded.planned,
    )


def _pupils(loaded: Loaded, settings: DaySettings, young: Sequence[str]) -> Pupils | None:
    """Return those under 18 who train with adults and whose hours of school are not told."""
    if loaded.season.under_18 or not young or settings.school or loaded.scenario.speaks_of_school:
        return None
    return Pupils(tuple(young), settings)


def asked_of(loaded: Loaded) -> dict[int, tuple[DayHold, ...]]:
    """Return what is asked of the days of a season in a folder, by week (from 0).

    Raises
    ------
    InputError
        If its file cannot be used.
    """
    folder = folder_of(loaded.path)
    return {} if folder is None else read_asked(folder.days, loaded.season)


def read_hold(text: str, *, on: bool) -> DayHold:
    """Return a demand on a week as people type it: ``gym:tuesday`` or ``gym:tuesday@18:00``.

    Raises
    ------
    click.BadParameter
        If it cannot be read.
    """
    found = HOLD.fullmatch(text.strip().lower())
    if not found or (found["at"] and not on):
        shown = "field:wednesday" if not on else "gym:tuesday or gym:tuesday@18:00"
        raise click.BadParameter(
            f"must be field, gym or practice with a day, such as {shown} (got {text!r})",
            param_hint="--hold" if on else "--off",
        )
    day = Weekday(found["day"]).number
    start = minutes_of(dt.time.fromisoformat(found["at"])) if found["at"] else None
    return DayHold(cast(Thing, found["thing"]), day, on, start)


def read_move(text: str) -> tuple[DayHold, DayHold]:
    """Return a session moved as people type it: ``gym:tuesday=thursday@18:00``.

    Raises
    ------
    click.BadParameter
        If it cannot be read.
    """
    before, sign, after = text.partition("=")
    thing = before.partition(":")[0]
    if not sign:
        raise click.BadParameter(
            f"must name both days, such as gym:tuesday=thursday (got {text!r})",
            param_hint="--move",
        )
    return read_hold(before, on=False), read_hold(f"{thing}:{after}", on=True)


def written_days(plan: Path, season: Season) -> list[tuple[SessionDayPart, ...]]:
    """Return by week the days that a plan file gives its sessions: those of a group's plan.

    Raises
    ------
    InputError
        If the file cannot be read.
    """
    if plan.suffix.lower() != ".json":
        return [()] * len(season.weeks)
    return [week.days for week in read_document(plan).weeks]


def week_index(season: Season, number: int, option: str = "--week") -> int:
    """Return the index of the week people call ``number``.

    Raises
    ------
    click.BadParameter
        If the season has no such week.
    """
    if number > len(season.weeks):
        raise click.BadParameter(
            f"must lie in 1 to {len(season.weeks)} (got {number})", param_hint=option
        )
    return index_of(number)
