"""Put all squads of a club on their shared ground, rooms and staff."""

import datetime as dt
from pathlib import Path

import click

from cli.club import Squad, club_week, faults_and_points, mondays, read_squads, squad_plan, worth
from cli.files.club_file import Club, read_club
from cli.files.errors import InputError
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
@click.option(
    "-o",
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    help="Write pages for phones, PDF and calendars for every squad, room, coach and athlete.",
)
@click.option(
    "--weeks",
    type=click.IntRange(min=1),
    help="With --out: only so many weeks, from that of --monday, else from the first on.",
)
def club_command(
    folder: Path, monday: dt.datetime | None, prices: bool, out: Path | None, weeks: int | None
) -> None:
    """Put every week of all squads of the club in FOLDER on what they share.

    FOLDER holds club.toml: [[squads]] with name, scenario, plan and priority, and [[shared]] with
    name, kind (room or person), uses (field, gym, practice), holds, opens, closes and squads.
    """
    club = read_club(folder)
    squads, pools = read_squads(folder, club), club.pools()
    if out is not None:
        _write(club, squads, pools, out, _asked(squads, monday, weeks))
        return
    if weeks is not None:
        raise click.UsageError("--weeks says how many weeks --out writes: name the folder.")
    if monday is not None:
        _show(squads, pools, monday.date())
        return
    solved = [club_week(squads, pools, day) for day in mondays(squads)]
    click.echo(summary_text(club.name, squads, pools, solved))
    if prices:
        joint = [week for week in solved if week.shared.joint]
        saved = [
            faults_and_points(sum(worth(squads, pools, week, at) for week in joint))
            for at in range(len(pools))
        ]
        click.echo(f"\n{prices_text(pools, saved, len(joint))}")


def _show(squads: list[Squad], pools: list[Pool], date: dt.date) -> None:
    week = club_week(squads, pools, _monday(squads, date))
    for at in week.there:
        click.echo(f"{week_text(squad_plan(squads, week, at), squads[at].name)}\n")
    click.echo("\n\n".join(pool_text(squads, pool, week) for pool in pools))


def _monday(squads: list[Squad], date: dt.date) -> dt.date:
    day = date - dt.timedelta(days=date.weekday())
    if day not in mondays(squads):
        raise click.BadParameter(
            f"must lie in a week of some squad's season (got {date})", param_hint="--monday"
        )
    return day


def _asked(squads: list[Squad], monday: dt.datetime | None, weeks: int | None) -> list[dt.date]:
    days = mondays(squads)
    first = days[0] if monday is None else _monday(squads, monday.date())
    there = [day for day in days if day >= first]
    return there[:weeks]


def _write(
    club: Club, squads: list[Squad], pools: list[Pool], out: Path, days: list[dt.date]
) -> None:
    """Write all pages, PDF and calendars; what draws is loaded only here."""
    from cli.report.club_files import club_files

    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError.from_os(out, error) from None
    solved = [club_week(squads, pools, day) for day in days]
    kinds = [part.kind for part in club.shared]
    count = club_files(out, club.name, squads, pools, kinds, solved)
    click.echo(f"{count} files in {out}; begin with {out / 'index.html'}.")
