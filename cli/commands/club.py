"""Put all squads of a club on their shared ground, rooms and staff."""

import datetime as dt
from pathlib import Path

import click

from cli.club import Squad, club_week, faults_and_points, mondays, read_squads, squad_plan, worth
from cli.files.club_file import read_club
from cli.render.club import pool_text, prices_text, summary_text
from cli.render.week_days import week_text
from optimiser.days.shared import Pool


@click.command("club")
@click.argument("folder", type=click.Path(path_type=Path))
@click.option(
    "--monday",
    type=click.DateTime(["%Y-%m-%d"]),
    help="Show the week of this date whole: every squad, then everything shared.",
)
@click.option(
    "--prices",
    is_flag=True,
    help="Say what one squad more at once in each room, or another coach, would be worth.",
)
def club_command(folder: Path, monday: dt.datetime | None, prices: bool) -> None:
    """Put every week of all squads of the club in FOLDER on what they share.

    FOLDER holds club.toml: [[squads]] with name, scenario, plan and priority, and [[shared]] with
    name, uses (field, gym, practice), holds, opens, closes and squads.
    """
    club = read_club(folder)
    squads, pools = read_squads(folder, club), club.pools()
    if monday is not None:
        _show(squads, pools, monday.date())
        return
    weeks = [club_week(squads, pools, day) for day in mondays(squads)]
    click.echo(summary_text(club.name, squads, pools, weeks))
    if prices:
        joint = [week for week in weeks if week.shared.joint]
        saved = [
            faults_and_points(sum(worth(squads, pools, week, at) for week in joint))
            for at in range(len(pools))
        ]
        click.echo(f"\n{prices_text(pools, saved, len(joint))}")


def _show(squads: list[Squad], pools: list[Pool], date: dt.date) -> None:
    day = date - dt.timedelta(days=date.weekday())
    if day not in mondays(squads):
        raise click.BadParameter(
            f"must lie in a week of some squad's season (got {date})", param_hint="--monday"
        )
    week = club_week(squads, pools, day)
    for at in week.there:
        click.echo(f"{week_text(squad_plan(squads, week, at), squads[at].name)}\n")
    click.echo("\n\n".join(pool_text(squads, pool, week) for pool in pools))
