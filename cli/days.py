"""The days of a season's weeks, as its scenario and its rules want them."""

from collections.abc import Sequence
from pathlib import Path

import click

from cli.files.own_work import read_library, read_preparation
from cli.files.plan_json import read_document
from cli.files.scenario_file import Loaded
from constraints.session_caps import SessionCaps
from constraints.spacing import Spacing
from optimiser.days.settings import DaySettings, SessionLimits
from optimiser.days.week import WeekMaker
from optimiser.domain.document import SessionDayPart
from optimiser.domain.season import Season
from optimiser.rule import Rule


def week_maker(loaded: Loaded, rules: Sequence[Rule]) -> WeekMaker:
    """Return what puts the weeks of a season on days.

    Spacings are those of the rule `spacing` and session lengths those of `session_caps`; a rule
    that is not in use leaves their defaults.
    """
    settings = next((rule for rule in rules if isinstance(rule, Spacing)), DaySettings())
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
    )


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


def week_index(season: Season, number: int) -> int:
    """Return the index of the week people call ``number``.

    Raises
    ------
    click.BadParameter
        If the season has no such week.
    """
    if number > len(season.weeks):
        raise click.BadParameter(
            f"must lie in 1 to {len(season.weeks)} (got {number})", param_hint="--week"
        )
    return number - 1
