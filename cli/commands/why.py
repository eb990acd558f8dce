"""Say why a plan has what it has in one place."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from cli.days import week_maker, written_days
from cli.files.known_keys import nearest
from cli.files.plan_file import read_plan
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.lift import lift_text
from cli.main import OUT_OF_TIME
from cli.options import format_option, seconds_option, week_option
from cli.render.why import alternatives_data, alternatives_text, answer_data, answer_text, past_text
from cli.render.why_days import days_why
from cli.render.why_week import TOPICS, week_why
from cli.saying import need, say_json
from cli.season.argument import plan_argument, season_argument
from cli.season.progress import SeasonToday, progress
from cli.solving import settings_of
from cli.squad_groups import planned_alone
from optimiser.days.other_days import other_days
from optimiser.domain.document import SessionDayPart
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, dose_of
from optimiser.domain.season import Season
from optimiser.domain.week_number import index_of, number_of
from optimiser.explain.why.alternatives import alternatives
from optimiser.explain.why.answer import why_not
from optimiser.explain.why.asked import Asked
from optimiser.rule import Rule

UNKNOWN = "No answer in the time given; --seconds gives more."


@click.command("why")
@season_argument
@plan_argument
@week_option
@click.option("--quality", help="Key of the quality, such as sprint; left out, about the week.")
@click.option(
    "--about",
    "topic",
    type=click.Choice(TOPICS),
    help="Of the week: its target, deload, taper, block or days; left out, all of them.",
)
@click.option(
    "--numbers",
    is_flag=True,
    help="Show limits of rules, and the costs that the search weighs, too.",
)
@click.option("--band", help="Ask about this band instead: its code, or its rung from 1.")
@click.option(
    "--dose",
    type=click.Choice([dose.word for dose in Dose]),
    help="Ask about this dose instead.",
)
@click.option(
    "--readiness",
    "level",
    type=click.FloatRange(1, 150),
    help="Ask what it would take to reach so many points at the week's match.",
)
@seconds_option("Longest time for what another choice costs.", 40.0, least=0.5)
@format_option("table", "json")
def why_command(
    scenario: Path,
    plan: Path,
    week: int,
    quality: str | None,
    topic: str | None,
    numbers: bool,
    band: str | None,
    dose: str | None,
    level: float | None,
    seconds: float,
    form: str,
) -> None:
    """Say why PLAN has what it has in a week of SCENARIO, in a coach's sentences.

    Without --quality: why the week has its target, whether it is a deload or a taper week, why its
    block ends where it ends, and why its sessions are on their days; --about days tries every
    other day for each of them.

    With --quality and without --band or --dose: every other choice there, all else left as it is,
    with what it means or the rule that forbids it. With one of them: no plan can have it and these
    rules forbid it, or the best plan that has it costs so much more, or it is as good. --readiness
    asks the same of a week's match: what a better prepared final would cost the others.

    With --numbers, costs are told in points of the season cost: readiness below target by week,
    bands, amounts, steadiness, blocks and rules with a price.
    """
    if band is not None and dose is not None:
        raise click.UsageError("ask about --band or --dose, one at a time")
    loaded = read_scenario(scenario)
    loaded, rules = planned_alone(plan, loaded, read_rules(loaded))
    there = progress(loaded, read_plan(plan, loaded, rules))
    loaded, read = there.loaded, there.lived.plan
    season = loaded.season
    _check_week(season, week)
    at = index_of(week)
    if level is not None:
        need(quality is None and topic is None, "--readiness asks about the match of the week")
        need(form == "table", "--format json answers about a --quality: name it")
        _check_open(there, week)
        click.echo(lift_text(there, rules, at, level, seconds / 2, numbers=numbers))
        return
    if quality is None:
        need(band is None and dose is None, "--band and --dose ask about a --quality: name it")
        need(form == "table", "--format json answers about a --quality: name it")
        _week(there, rules, at, written_days(plan, season)[at], topic or "", numbers=numbers)
        return
    need(topic is None, "--about asks about the week: leave --quality out")
    index = _quality(season, quality)
    if band is None and dose is None:
        _others(there, rules, index, at, form, numbers=numbers)
        return
    asked = Asked(
        week=at,
        quality=season.keys[index],
        rung=None if band is None else _rung(season, index, band),
        dose=None if dose is None else dose_of(dose),
    )
    if _has(read, index, asked):
        click.echo(f"The plan has that already: {asked.says(season)}.")
        return
    _answered(there, rules, asked, seconds, form, numbers)


def _week(
    there: SeasonToday,
    rules: Sequence[Rule],
    at: int,
    written: Sequence[SessionDayPart],
    topic: str,
    *,
    numbers: bool,
) -> None:
    """Print why a week (from 0) is as it is."""
    season, plan, maker = there.loaded.season, there.lived.plan, week_maker(there.loaded, rules)
    if at < there.lived.weeks:
        click.echo(f"Week {number_of(at)} is over; this is why it was planned as it was.\n")
    made = maker.week(plan, at, written)
    click.echo(week_why(season, plan, rules, at, made, topic, numbers=numbers))
    if topic == "days":
        click.echo(f"\n{days_why(other_days(maker, plan, at))}")


def _others(
    there: SeasonToday, rules: Sequence[Rule], index: int, at: int, form: str, *, numbers: bool
) -> None:
    """Print every other choice for a quality in a week (both from 0)."""
    season, plan, over = there.loaded.season, there.lived.plan, there.lived.weeks
    if at < over and form == "table":
        click.echo(past_text(season, there.planned, plan, index, at, over))
        return
    found = alternatives(season, plan, rules, index, at, there.loaded.scenario.rates)
    if form == "json":
        say_json(alternatives_data(season, index, number_of(at), found))
    else:
        click.echo(alternatives_text(season, plan, index, at, found, numbers=numbers))


def _answered(
    there: SeasonToday,
    rules: Sequence[Rule],
    asked: Asked,
    seconds: float,
    form: str,
    numbers: bool,
) -> None:
    """Print what another choice would cost, or why it cannot be."""
    loaded, season = there.loaded, there.loaded.season
    settings = settings_of(loaded, None, False, None)
    settings = replace(settings, seconds=seconds / 2)
    _check_open(there, number_of(asked.week))
    plan = there.lived.plan
    answer = why_not(season, rules, plan, asked, settings, decided=there.decided)
    if answer == "unknown":
        click.echo(UNKNOWN, err=True)
        raise click.exceptions.Exit(OUT_OF_TIME)
    if form == "json":
        say_json(answer_data(season, asked, answer))
    else:
        click.echo(answer_text(season, asked, answer, numbers=numbers))


def _check_open(there: SeasonToday, week: int) -> None:
    if week <= there.lived.weeks:
        raise click.BadParameter(
            f"must be a week that is not over: {there.lived.weeks + 1} or later (got {week})",
            param_hint="--week",
        )


def _quality(season: Season, given: str) -> int:
    """Return the index of a quality by its key or name."""
    wanted = given.strip().lower()
    for index, quality in enumerate(season.qualities):
        if wanted in (quality.key, quality.name.lower()):
            return index
    close = nearest(wanted.replace(" ", "_"), season.keys)
    do = f"did you mean {close}?" if close else f"qualities: {', '.join(season.keys)}"
    raise click.BadParameter(f"there is no quality {given!r}; {do}", param_hint="--quality")


def _check_week(season: Season, week: int) -> None:
    if week > len(season.weeks):
        raise click.BadParameter(
            f"must be 1 to {len(season.weeks)} (got {week})", param_hint="--week"
        )
    if season.weeks[index_of(week)].closed:
        raise click.BadParameter(
            f"week {week} is closed: nothing is chosen there", param_hint="--week"
        )


def _rung(season: Season, index: int, given: str) -> int:
    """Return the rung from 0 of a band's code, or of a rung from 1."""
    codes = [band.code for band in season.qualities[index].bands]
    folded = {code.casefold(): rung for rung, code in enumerate(codes)}
    if given.casefold() in folded:
        return folded[given.casefold()]
    if given.isdecimal() and 1 <= int(given) <= len(codes):
        return int(given) - 1
    raise click.BadParameter(
        f"must be one of {', '.join(codes)}, or a rung from 1 to {len(codes)} (got {given!r})",
        param_hint="--band",
    )


def _has(plan: Plan, index: int, asked: Asked) -> bool:
    rung, dose = plan.rungs[index][asked.week], plan.doses[index][asked.week]
    return asked.rung == rung if asked.rung is not None else asked.dose is dose
