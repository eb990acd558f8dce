"""Put all squads of a club on their shared ground, rooms and staff."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

import click

from cli.club import (
    Closed,
    ClubMember,
    ClubWeek,
    PlannedSquad,
    closed_week,
    club_week,
    faults_and_points,
    mondays,
    more_of,
    read_club_squads,
    squad_plan,
    squads_of,
    worth,
)
from cli.club_agenda import pool_agenda, squad_agendas
from cli.club_closed import ByMonday, keep_closed, read_closed
from cli.club_locking import lock_week
from cli.files.club_file import Club, read_club
from cli.files.known_keys import nearest
from cli.files.safe_write import make_directory
from cli.main import CLASH
from cli.options import (
    DAY,
    FROM_ONE,
    PATH,
    apply_option,
    folder_option,
    keep_options,
    seconds_option,
)
from cli.render.care import club_care_text
from cli.render.club import closed_text, pool_text, prices_text, summary_text
from cli.render.week_days import week_text
from cli.season.argument import today_option
from cli.season.club_folder import ClubFolder, open_club
from cli.season.history import State
from optimiser.days.shared import Pool
from optimiser.domain.calendar_day import monday_of
from optimiser.domain.weekday import Weekday
from optimiser.domain.wording import listed

WHOLE = "--seasons goes with --apply and --seconds alone: it is of whole seasons."
STAYS = "All plans stay as they are."


@click.command("club")
@click.argument("folder", type=PATH)
@today_option
@click.option(
    "--monday",
    type=DAY,
    help="Show the week of this date whole: every squad, then everything shared.",
)
@click.option(
    "--closed",
    multiple=True,
    metavar="NAME:DAY",
    help="With --monday: a room is closed or a coach away on a day of that week, such as "
    "Pitch:tuesday; all else stays where it was if it can. May be repeated.",
)
@keep_options(
    save="Keep what is closed in FOLDER (closed.csv): summary, pages and files follow; see undo.",
    lock="With --monday: hold the squads to these days and hours in their season folders "
    "(days.csv there): their weeks, cards and files say the same; see undo.",
    forget="Drop what FOLDER keeps as closed in that week.",
)
@click.option(
    "--prices",
    is_flag=True,
    help="Say what one squad more at once, or an hour more, in each room would be worth; and "
    "another coach.",
)
@click.option(
    "--seasons",
    is_flag=True,
    help="Plan the squads' seasons together where they share scarce hours: an hour there has a "
    "price, who has a higher number in priority gives way, and how near all plans are to the "
    "best is said.",
)
@apply_option("With --seasons: put these plans in force, each in the folder it is in; see undo.")
@seconds_option("With --seasons: end by then with the best so far; left out, after a fixed effort.")
@folder_option(
    "Write pages for phones, PDF and calendars for every squad, room, coach and athlete."
)
@click.option(
    "--weeks",
    type=FROM_ONE,
    help="With --out: only so many weeks, from that of --monday, else from the first on.",
)
def club_command(
    folder: Path,
    monday: dt.datetime | None,
    closed: tuple[str, ...],
    save: bool,
    lock: bool,
    forget: bool,
    prices: bool,
    seasons: bool,
    applied: bool,
    seconds: float | None,
    out: Path | None,
    weeks: int | None,
) -> None:
    """Put every week of all squads of the club in FOLDER on what they share.

    FOLDER holds club.toml: [[squads]] with name, scenario (a file, or a season folder), plan (left
    out, that in force of the folder) and priority, and [[shared]] with name, kind (room or person),
    uses (field, gym, practice), holds, opens, closes and squads. What is closed on a day is kept in
    closed.csv (date, shared), by --save or by hand.
    """
    club = read_club(folder)
    place = open_club(folder if folder.is_dir() else folder.parent)
    seen = place.now()
    of_one_week = save or lock or forget
    if seasons:
        if monday or closed or of_one_week or prices or out or weeks:
            raise click.UsageError(WHOLE)
        _seasons(club, place, seen, seconds, applied=applied)
        return
    _check_usage(monday, weeks, out, of_one_week=of_one_week, planned=applied or bool(seconds))
    members = read_club_squads(place.scenario, club)
    squads, pools = squads_of(members), club.pools()
    given, kept = _closed(pools, closed, monday), read_closed(place.closed, pools)
    if monday is not None:
        day = _monday(squads, monday.date())
        stands = () if forget else kept.get(day, ())
        kept[day] = tuple(dict.fromkeys([*stands, *given]))
        if save or forget:
            keep_closed(place, seen, pools, day, kept[day])
            click.echo(f"Kept in {place.closed}; `undo {place.path}` takes it back.", err=True)
        if lock:
            _lock(members, squads, pools, day, kept)
            squads = squads_of(read_club_squads(place.scenario, club))
    if out is not None:
        days = _asked(squads, monday, weeks)
        _write(club, squads, pools, out, _solved(squads, pools, days, kept))
    elif monday is not None:
        _show(squads, pools, day, kept[day])
        if given and not save:
            click.echo("What is closed is not kept: --save keeps it.", err=True)
    else:
        _summary(club, squads, pools, kept, prices=prices)


def _check_usage(
    monday: dt.datetime | None,
    weeks: int | None,
    out: Path | None,
    *,
    of_one_week: bool,
    planned: bool,
) -> None:
    """Refuse options that go with others which are not there."""
    if planned:
        raise click.UsageError("--apply and --seconds are for --seasons: nothing else makes plans.")
    if monday is None and of_one_week:
        raise click.UsageError("--save, --lock and --forget are of one week: say which (--monday).")
    if weeks is not None and out is None:
        raise click.UsageError("--weeks says how many weeks --out writes: name the folder.")


def _lock(
    members: Sequence[ClubMember],
    squads: list[PlannedSquad],
    pools: list[Pool],
    day: dt.date,
    kept: ByMonday,
) -> None:
    (week,) = _solved(squads, pools, [day], kept)
    for told in lock_week(members, squads, week):
        click.echo(told, err=True)


def _summary(
    club: Club, squads: list[PlannedSquad], pools: list[Pool], kept: ByMonday, *, prices: bool
) -> None:
    """Show all weeks in few lines, and what more of each room would be worth."""
    solved = _solved(squads, pools, mondays(squads), kept)
    click.echo(summary_text(club.name, squads, pools, solved))
    if prices:
        joint = [week for week in solved if week.shared.joint]
        saved = [
            [
                faults_and_points(sum(worth(squads, pools, week, at, other) for week in joint))
                for other in more_of(pool)
            ]
            for at, pool in enumerate(pools)
        ]
        click.echo(f"\n{prices_text(pools, saved, len(joint))}")


def _seasons(
    club: Club, place: ClubFolder, seen: State, seconds: float | None, *, applied: bool
) -> None:
    """Plan the seasons of all squads together; what searches is loaded only here."""
    from cli.club_applying import apply_together, check_applicable
    from cli.club_seasons import together
    from cli.render.club_seasons import ClubSeasons, seasons_text
    from optimiser.club.time_limit import Patience

    patience = Patience(seconds)
    members = read_club_squads(place.scenario, club)
    if applied:
        check_applicable(place, members)
    made = together(place, club, members, lambda told: click.echo(told, err=True), patience)
    own = [squad.own for squad in made.squads]
    seasons = ClubSeasons(club.name, own, club.pools(), made.grounds, made.found)
    click.echo(seasons_text(seasons))
    if applied:
        folders = apply_together(place, seen, made.squads, made.found)
        click.echo(_applied(folders) if folders else STAYS, err=True)
    elif made.changed:
        click.echo("Nothing is written; --apply puts these plans in force.", err=True)
    if made.found.over:
        raise click.exceptions.Exit(CLASH)


def _applied(folders: Sequence[Path]) -> str:
    back = listed([f"`undo {path}`" for path in folders])
    return f"Put in force. To take it back: {back}."


def _solved(
    squads: list[PlannedSquad], pools: list[Pool], days: Sequence[dt.date], kept: ByMonday
) -> list[ClubWeek]:
    """Return weeks by their Mondays, with what is kept as closed in each."""
    weeks = []
    for day in days:
        week = club_week(squads, pools, day)
        shut = kept.get(day)
        weeks.append(closed_week(squads, pools, week, shut) if shut else week)
    return weeks


def _closed(
    pools: Sequence[Pool], given: Sequence[str], monday: dt.datetime | None
) -> list[Closed]:
    """Return what is closed on which day, as people type it."""
    if given and monday is None:
        raise click.UsageError("--closed is of one week: say which with --monday.")
    days, names = [day.value for day in Weekday], [pool.name for pool in pools]
    found = []
    for text in given:
        name, _, day = text.rpartition(":")
        known = {each.casefold(): each for each in names}
        name = known.get(name.strip().casefold(), name.strip())
        if day.strip().lower() not in days or name not in names:
            near = known.get(nearest(name, known) or "")
            meant = f"; did you mean {near}?" if near and near != name else ""
            raise click.BadParameter(
                f"must be one of {', '.join(names) or 'what is shared'} with a day, such as "
                f"{names[0] if names else 'Pitch'}:tuesday (got {text!r}{meant})",
                param_hint="--closed",
            )
        found.append(Closed(names.index(name), days.index(day.strip().lower())))
    return found


def _show(
    squads: list[PlannedSquad], pools: list[Pool], date: dt.date, closed: Sequence[Closed]
) -> None:
    before = week = club_week(squads, pools, date)
    if closed:
        week = closed_week(squads, pools, before, closed)
        click.echo(f"{_moves(squads, pools, before, week, closed)}\n")
    for at in week.there:
        click.echo(f"{week_text(squad_plan(squads, week, at), squads[at].name)}\n")
    agendas = squad_agendas(squads, pools, [week])
    held = [pool_agenda(pool, "room", agendas) for pool in pools]
    click.echo("\n\n".join(pool_text(week.monday, each) for each in held))
    click.echo(f"\n{club_care_text([squads[at].maker.season for at in week.there])}")


def _moves(
    squads: Sequence[PlannedSquad],
    pools: Sequence[Pool],
    before: ClubWeek,
    week: ClubWeek,
    closed: Sequence[Closed],
) -> str:
    """Return what is elsewhere than before, by squad."""
    days = [day.value.capitalize() for day in Weekday]
    head = ", ".join(f"{pools[each.pool].name} on {days[each.day]}" for each in closed)
    moves = {
        squads[at].name: (squad_plan(squads, before, at), squad_plan(squads, week, at))
        for at in week.there
    }
    return closed_text(f"Closed: {head}", moves)


def _monday(squads: list[PlannedSquad], date: dt.date) -> dt.date:
    day = monday_of(date)
    if day not in mondays(squads):
        raise click.BadParameter(
            f"must lie in a week of some squad's season (got {date})", param_hint="--monday"
        )
    return day


def _asked(
    squads: list[PlannedSquad], monday: dt.datetime | None, weeks: int | None
) -> list[dt.date]:
    days = mondays(squads)
    first = days[0] if monday is None else _monday(squads, monday.date())
    there = [day for day in days if day >= first]
    return there[:weeks]


def _write(
    club: Club, squads: list[PlannedSquad], pools: list[Pool], out: Path, solved: list[ClubWeek]
) -> None:
    """Write all pages, PDF and calendars; what draws is loaded only here."""
    from cli.report.club_files import club_files

    make_directory(out)
    kinds = [part.kind for part in club.shared]
    count = club_files(out, club.name, squads, pools, kinds, solved)
    click.echo(f"{count} files in {out}; begin with {out / 'index.html'}.")
