"""Show one week day by day."""

import json
from pathlib import Path

import click

from cli.days import asked_of, read_hold, read_move, week_index, week_maker, written_days
from cli.files.plan_file import read_plan
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.options import format_option, keep_options, week_option
from cli.render.care import season_care_text
from cli.render.week_days import moved_text, week_text
from cli.season.argument import plan_argument, season_argument
from cli.season.attendance import squad_histories, week_attendance
from cli.season.day_demands import keep_asked, locked
from cli.season.needed import needed_folder
from cli.season.progress import progress
from cli.squad_groups import as_planned
from optimiser.days.holds import over


@click.command("week")
@season_argument
@plan_argument
@week_option
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
@click.option(
    "--move",
    multiple=True,
    metavar="WHAT:DAY=DAY[@HH:MM]",
    help="Move field, gym or practice, such as gym:tuesday=thursday; may be repeated.",
)
@keep_options(
    save="Keep what is asked in the season FOLDER (days.csv): cards, files and all follow it.",
    lock="Hold all sessions and practice where they now are.",
    forget="Drop what the FOLDER keeps for this week.",
)
@format_option("table", "json")
def week_command(
    scenario: Path,
    plan: Path,
    week: int,
    hold: tuple[str, ...],
    off: tuple[str, ...],
    move: tuple[str, ...],
    lock: bool,
    save: bool,
    forget: bool,
    form: str,
) -> None:
    """Put one week of PLAN on its days: matches, practice and sessions around them.

    Days are named by the match near them: MD-2 is two days before one, MD+1 the day after. In the
    plan of a group, sessions are on the days that `groups` found for all groups together. Where
    something is asked of a week, all else of it stays where it was if it can.
    """
    holds = [*(read_hold(text, on=True) for text in hold)]
    holds += [read_hold(text, on=False) for text in off]
    holds += [each for text in move for each in read_move(text)]
    loaded = read_scenario(scenario)
    loaded, rules = as_planned(plan, loaded, read_rules(loaded))
    index = week_index(loaded.season, week)
    there = progress(loaded, read_plan(plan, loaded, rules))
    loaded, read = there.loaded, there.lived.plan
    written = written_days(plan, loaded.season)
    maker = week_maker(loaded, rules)
    before = maker.week(read, index, written[index])
    kept = asked_of(loaded)
    stands = () if forget else kept.get(index, ())
    asked = over(stands, [*(locked(before) if lock else ()), *holds])
    maker.holds = {**maker.holds, index: asked}
    made = maker.week(read, index, written[index]) if asked or forget else before
    if save or forget:
        _check_ahead(week, there.lived.weeks)
        keep_asked(needed_folder(scenario), loaded, {**kept, index: asked}, f"week {week}")
    if form == "json":
        click.echo(json.dumps(made.model_dump(mode="json"), indent=2))
    else:
        squad, calendar = squad_histories(loaded), loaded.season.weeks[index]
        there_are = week_attendance(squad, calendar, loaded.group)
        shown = week_text(made, loaded.season.name)
        care = season_care_text(loaded.season)
        parts = [shown, moved_text(before, made), there_are, care]
        click.echo("\n\n".join(part for part in parts if part))


def _check_ahead(number: int, over: int) -> None:
    """Refuse to keep anything for a week that is over.

    Raises
    ------
    click.BadParameter
        If it is.
    """
    if number <= over:
        raise click.BadParameter(
            f"must be {over + 1} or later for what is kept (got {number}, which is over)",
            param_hint="--week",
        )
