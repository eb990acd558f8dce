"""Write the season files of a whole league, real or invented."""

import datetime as dt
from pathlib import Path

import click
from pydantic import ValidationError

from cli.files.errors import InputError
from cli.files.fixtures_found import DateOrder
from cli.files.safe_write import make_directory, write_text
from cli.league_files import league_scenarios
from cli.options import DAY, PATH, force_option, list_options, output_option, seed_option
from cli.render.league_text import fixtures_text, season_text
from optimiser.domain.scenario import MOST_WEEKS
from optimiser.domain.setup_error import SetupError
from optimiser.league.clubs import MOST_CLUBS
from optimiser.league.league import ClubSeason, make_league
from optimiser.league.settings import Closeness, LeagueSettings


@click.command("league")
@click.argument("fixtures", required=False, type=PATH)
@list_options
@click.option(
    "--clubs",
    type=click.IntRange(4, MOST_CLUBS),
    default=10,
    show_default=True,
    help="How many; an odd number has a bye in every round.",
)
@click.option(
    "--start",
    type=DAY,
    help="First day of week 1, a Monday; needed for an invented league.",
)
@click.option(
    "--weeks",
    type=click.IntRange(12, MOST_WEEKS),
    default=52,
    show_default=True,
    help="Length of every season.",
)
@click.option(
    "--country",
    help="Country whose public holidays are days of rest: NZ, GB-ENG. "
    "Needs pip install 'seasonwright[calendar]'.",
)
@click.option(
    "--congestion",
    type=click.Choice([level.value for level in Closeness]),
    default="some",
    show_default=True,
    help="none: weekends only. some: the cup in midweek. heavy: a third of the league too.",
)
@click.option(
    "--swap/--no-swap",
    default=True,
    show_default=True,
    help="Swap the last two rounds of the first half, against long runs at home or away.",
)
@seed_option("Same seed, same league.", 0)
@output_option("Folder for the files; made if it is not there.")
@force_option("Write over files that are there.")
def league_command(
    fixtures: Path | None,
    dates: DateOrder | None,
    year: int | None,
    clubs: int,
    start: dt.datetime | None,
    weeks: int,
    country: str | None,
    congestion: str,
    swap: bool,
    seed: int,
    output: Path,
    force: bool,
) -> None:
    """Write a season for every club of a league; `batch` plans them all.

    FIXTURES is a list of the whole league with the columns date, home and away. Without it a league
    is invented: everyone meets everyone twice, by round-robin tables, with a knock-out cup beside
    it.
    """
    if fixtures is not None:
        files, said = league_scenarios(fixtures, dates or "", year or 0)
        click.echo("\n".join(said), err=True)
        _write(output, files, force)
        click.echo(f"Wrote {len(files)} seasons to {output}, one for each club of {fixtures.name}.")
        return
    if start is None:
        raise click.UsageError("name a league's FIXTURES, or give --start to invent one")
    try:
        settings = LeagueSettings(
            clubs=clubs,
            start=start.date(),
            weeks=weeks,
            country=country,
            congestion=Closeness(congestion),
            seed=seed,
            swap=swap,
        )
        seasons = make_league(settings)
    except ValidationError as error:
        raise click.UsageError(_first(error)) from None
    except SetupError as error:
        raise click.UsageError(f"--{error}") from None
    _write(output, _files(seasons), force)
    click.echo(_told(output, seasons))


def _first(error: ValidationError) -> str:
    detail = error.errors(include_url=False)[0]
    where = ".".join(str(part) for part in detail["loc"])
    return f"--{where}: {detail['msg'].removeprefix('Value error, ')}"


def _files(seasons: list[ClubSeason]) -> dict[str, str]:
    files = {}
    for number, season in enumerate(seasons, 1):
        stem = f"{number:02d}_{season.club.name.lower()}"
        files[f"{stem}.csv"] = fixtures_text(season)
        files[f"{stem}.toml"] = season_text(season, f"{stem}.csv")
    return files


def _write(output: Path, files: dict[str, str], force: bool) -> None:
    there = [name for name in files if (output / name).exists()]
    if there and not force:
        raise InputError(
            output / there[0],
            "",
            "must not be there yet",
            "a file of that name",
            "name another folder, or add --force to replace it",
        )
    make_directory(output)
    for name, text in files.items():
        write_text(output / name, text)


def _told(output: Path, seasons: list[ClubSeason]) -> str:
    matches = [len(season.fixtures) for season in seasons]
    return (
        f"Wrote {len(seasons)} seasons of {seasons[0].weeks} weeks to {output}: "
        f"{min(matches)} to {max(matches)} matches each."
    )
