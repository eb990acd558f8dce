"""What it would take to have a match better prepared, looked for and told."""

from collections.abc import Sequence
from dataclasses import replace

import click

from cli.render.terminal import filled
from cli.render.why import answer_text
from cli.render.words import one_line
from cli.season.progress import SeasonToday
from cli.solving import settings_of
from optimiser.change.near import solve_near
from optimiser.domain.fixture import Fixture
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.explain.why.answer import possible
from optimiser.explain.why.lifted import Attainable, Lifted, reach
from optimiser.response.readiness import most_important
from optimiser.review.score import readiness
from optimiser.rule import Rule


def lift_text(
    there: SeasonToday,
    rules: Sequence[Rule],
    week: int,
    level: float,
    seconds: float,
    *,
    numbers: bool,
) -> str:
    """Return what a plan with more readiness at a week's match costs, or how far it can get.

    Parameters
    ----------
    week
        From 0.
    level
        Points asked for.
    seconds
        Longest time of each of the two searches.
    """
    season, plan = there.loaded.season, there.lived.plan
    match = _match(season, week)
    ready = float(readiness(season, plan)[0][week])
    if ready >= level:
        raise click.BadParameter(
            f"must be more than the {ready:.0f} points planned there (got {level:g})",
            param_hint="--readiness",
        )
    settings = replace(settings_of(there.loaded, None, False, None), seconds=seconds)
    found = reach(season, rules, plan, week, settings, there.decided)
    if found.most < level:
        return _short(season, week, match, ready, level, found)
    asked = Lifted(week=week, level=level, match=one_line(match.name, 30))
    near = solve_near(season, [*rules, asked], plan, settings, there.decided, start=found.plan)
    answer = possible(season, rules, asked, plan, near, settings)
    if answer == "unknown":
        return _short(season, week, match, ready, level, found)
    told = answer_text(season, asked, answer, numbers=numbers)
    return f"{told[:1].upper()}{told[1:]}"


def _match(season: Season, week: int) -> Fixture:
    """Return the match by which a week is judged."""
    if not season.weeks[week].fixtures:
        raise click.BadParameter(
            f"must be a week with a match (week {number_of(week)} has none)", param_hint="--week"
        )
    return most_important(season.weeks[week])


def _short(
    season: Season, week: int, match: Fixture, ready: float, level: float, found: Attainable
) -> str:
    """Say how far readiness can get where it cannot get, or was not seen to get, to the level."""
    place = f"{one_line(match.name, 30)} (week {season.weeks[week].number})"
    best = f"{found.most:.1f} is the most that was found, whatever becomes of other matches"
    if found.ceiling < level:
        told = (
            f"No plan that keeps these rules is {level:g} points ready for {place}: none can have "
            f"more than {found.ceiling:.1f}, and {best}; this plan has {ready:.1f}."
        )
    else:
        told = (
            f"No plan that is {level:g} points ready for {place} was found: {best} (none can have "
            f"more than {found.ceiling:.1f}); this plan has {ready:.1f}. --seconds looks longer."
        )
    return filled(told)
