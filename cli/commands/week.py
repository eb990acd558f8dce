"""Show one week day by day."""

import json
from pathlib import Path

import click

from cli.days import read_hold, week_index, week_maker, written_days
from cli.files.plan_file import read_plan
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.options import format_option
from cli.render.care import season_care_text
from cli.render.week_days import week_text
from cli.season.argument import plan_argument, season_argument
from cli.season.attendance import squad_histories, week_attendance
from cli.season.progress import progress
from cli.squad_groups import as_planned


@click.command("week")
@season_argument
@plan_argument
@click.option(
    "--week", "number", type=click.IntRange(min=1), required=True, help="Week, counted from 1."
)
@click.option(
    "--hold",
    multiple=True,
    metavar="WHAT:DAY[@HH:MM]",
    help="Ask for field, gym or practice on a day, such as gym:tuesday@18:00; may be repeated.",
)
@click.option(
    "--off",
    multiple=True,
    metavar="WHAT:DAY",
    help="Keep field, gym or practice off a day, such as field:wednesday where a pitch is closed.",
)
@format_option("table", "json")
def week_command(
    scenario: Path,
    plan: Path,
    number: int,
    hold: tuple[str, ...],
    off: tuple[str, ...],
    form: str,
) -> None:
    """Put one week of PLAN on its days: matches, practice and sessions around them.

    Days are named by the match near them: MD-2 is two days before one, MD+1 the day after. In the
    plan of a group, sessions are on the days that `groups` found for all groups together.
    """
    holds = [*(read_hold(text, on=True) for text in hold)]
    holds += [read_hold(text, on=False) for text in off]
    loaded = read_scenario(scenario)
    loaded, rules = as_planned(plan, loaded, read_rules(loaded))
    index = week_index(loaded.season, number)
    there = progress(loaded, read_plan(plan, loaded, rules))
    loaded, read = there.loaded, there.lived.plan
    written = written_days(plan, loaded.season)
    made = week_maker(loaded, rules).week(read, index, written[index], holds)
    if form == "json":
        click.echo(json.dumps(made.model_dump(mode="json"), indent=2))
    else:
        there_are = week_attendance(squad_histories(loaded), loaded.season.weeks[index])
        parts = [week_text(made, loaded.season.name), there_are, season_care_text(loaded.season)]
        click.echo("\n\n".join(part for part in parts if part))
