"""Write a scenario around a fixture list."""

import datetime as dt
import os
from pathlib import Path
from tempfile import TemporaryDirectory
from zoneinfo import ZoneInfo

import click

from cli.files.errors import InputError
from cli.files.fixtures_file import find_fixtures
from cli.files.fixtures_found import DateOrder, ListFacts, found_words
from cli.files.fixtures_frame import frame_with_friendlies
from cli.files.fixtures_notices import season_notices
from cli.files.fixtures_priorities import best_by_date, proposals, proposed_words
from cli.files.read_text import read_bytes
from cli.files.safe_write import check_writable, write_text
from cli.files.scenario_file import load_scenario
from cli.files.season_name import season_name
from cli.options import DAY, PATH, force_option, list_options, output_option
from cli.render.scenario_text import Draft, scenario_text
from cli.season.folder import SCENARIO, SQUAD
from cli.season.made import make_folder
from optimiser.domain.calendar_day import in_reach, nearest_monday
from optimiser.domain.scenario import MOST_WEEKS
from optimiser.domain.wording import counted
from optimiser.setup.calendar import PRE_SEASON_WEEKS
from optimiser.setup.frame import OFF_SEASON_WEEKS, priorities_needed


@click.command("new")
@click.option(
    "--fixtures",
    "fixtures_path",
    required=True,
    type=PATH,
    help="The matches, as .csv, .xlsx, .ods or .ics.",
)
@output_option("What to write: a scenario, ending in .toml, or a season folder.")
@click.option(
    "--name",
    default="",
    help="Name of the season; left out, that of the club or team in the list, or of the file.",
)
@click.option("--sport", default="", help="Name of the sport.")
@click.option(
    "--first-monday",
    type=DAY,
    help="First day; left out, it follows from the weeks before the first match.",
)
@click.option(
    "--weeks",
    type=click.IntRange(1, MOST_WEEKS),
    help="Length; left out, the week of the last match is the last.",
)
@click.option(
    "--pre-season-weeks",
    type=click.IntRange(0, 52),
    default=PRE_SEASON_WEEKS,
    show_default=True,
    help="Weeks of pre-season before the first match.",
)
@click.option(
    "--off-season-weeks",
    type=click.IntRange(0, 52),
    default=OFF_SEASON_WEEKS,
    show_default=True,
    help="Weeks of off-season before that.",
)
@list_options
@click.option("--match", default="", help="Keep only entries that have this text in their name.")
@click.option(
    "--calendar",
    default="",
    help="Of a file with several calendars or categories, only the one with this text in its name.",
)
@click.option(
    "--zone",
    default="",
    help="Time zone for times in UTC, such as Europe/Dublin; left out, that of the calendar.",
)
@click.option(
    "--club", default="", help="Whose season, where the list has a whole league's home and away."
)
@force_option("Write over a file that is there.")
def new_command(
    fixtures_path: Path,
    output: Path,
    name: str,
    sport: str,
    first_monday: dt.datetime | None,
    weeks: int | None,
    pre_season_weeks: int,
    off_season_weeks: int,
    dates: DateOrder | None,
    year: int | None,
    match: str,
    calendar: str,
    zone: str,
    club: str,
    force: bool,
) -> None:
    """Write a scenario around the matches of a fixture list, alone or in a season folder.

    A season folder is a season in progress: beside the scenario and its own copy of the fixtures
    it holds the squad, tests, who is available, what was done, the plan in force and every state
    that was applied. All commands take it where they take a scenario.
    """
    _check_output(output, force)
    asked = ListFacts(
        dates or "",
        match.strip(),
        _known_zone(zone.strip()),
        club.strip(),
        calendar.strip(),
        year or 0,
    )
    found = find_fixtures(fixtures_path, asked)
    by_itself = asked == ListFacts() and not found.apart
    fixtures = [item.fixture for item in found.listed]
    proposed = [] if found.ranked else proposals(fixtures)
    alone = output.suffix.lower() == ".toml"
    place = output if alone else output / SCENARIO
    copied = _copied(fixtures_path) if by_itself and not alone else None
    frame = frame_with_friendlies(
        fixtures_path,
        fixtures,
        off_season=off_season_weeks,
        pre_season=pre_season_weeks,
        first_monday=_monday(first_monday),
        weeks=weeks,
    )
    best = {date: item.priority for date, item in best_by_date(proposed).items()}
    ranks = best or priorities_needed(fixtures)
    draft = Draft(
        name=name or season_name(found, fixtures_path.name, fixtures),
        sport=sport,
        # A list that does not tell all by its own cells is written into the scenario.
        fixtures_file=_named(output, fixtures_path, copied) if by_itself else "",
        fixtures=fixtures,
        frame=frame,
        priorities=ranks,
        proposed={date: item.words for date, item in best_by_date(proposed).items()},
        notices=[*found.notices, *season_notices(fixtures, ranks, frame)],
        squad_file="" if alone else SQUAD,
    )
    text = scenario_text(draft)
    stands_out = draft.notices[len(found.notices) :]
    said = [*found_words(fixtures_path.name, found), *proposed_words(proposed), *_made_high(draft)]
    said += stands_out
    click.echo("\n".join(said), err=True)
    if alone:
        load_scenario(text, place)
        write_text(output, text)
    else:
        _check_copied(text, copied)
        make_folder(output, text, copied)
    click.echo(_told(output, draft))


def _copied(fixtures: Path) -> tuple[str, bytes]:
    """Return the name and the bytes of a season folder's own copy of a fixture list."""
    return f"fixtures{fixtures.suffix.lower()}", read_bytes(fixtures)


def _named(output: Path, fixtures: Path, copied: tuple[str, bytes] | None) -> str:
    return copied[0] if copied else _seen_from(output, fixtures)


def _check_copied(text: str, copied: tuple[str, bytes] | None) -> None:
    """Read a scenario back before anything is written, from a copy of what will be."""
    with TemporaryDirectory() as folder:
        if copied:
            (Path(folder) / copied[0]).write_bytes(copied[1])
        load_scenario(text, Path(folder) / SCENARIO)


def _check_output(output: Path, force: bool) -> None:
    if output.suffix and output.suffix.lower() != ".toml" and not output.is_dir():
        must = f"must end in .toml, or be a folder (got {output.name})"
        raise click.BadParameter(must, param_hint="--output")
    if (output / SCENARIO).exists():
        do = "name a new folder; the seasons of a folder in use are changed by `whatif --apply`"
        raise InputError(output, "", "must not be a season folder yet", "one", do)
    if output.exists() and not output.is_dir() and not force:
        raise InputError(
            output, "", "must not be there yet", "a file of that name", "add --force to replace it"
        )
    if output.suffix.lower() == ".toml":
        check_writable(output)


def _known_zone(name: str) -> str:
    try:
        return ZoneInfo(name).key if name else ""
    except (LookupError, ValueError, OSError):
        raise click.BadParameter(
            f"must be the name of a time zone such as Europe/Dublin (got {name})",
            param_hint="--zone",
        ) from None


def _monday(first: dt.datetime | None) -> dt.date | None:
    if first is None:
        return None
    day = _in_reach(first.date())
    if day.weekday():
        raise click.BadParameter(
            f"must be a Monday (got {day}, a {day:%A}); the nearest is {nearest_monday(day)}",
            param_hint="--first-monday",
        )
    return day


def _in_reach(day: dt.date) -> dt.date:
    try:
        return in_reach(day)
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint="--first-monday") from None


def _seen_from(output: Path, fixtures: Path) -> str:
    try:
        seen = os.path.relpath(fixtures.resolve(), output.resolve().parent)
    except ValueError:  # another drive
        seen = str(fixtures.resolve())
    return Path(seen).as_posix()


def _on_days(draft: Draft) -> str:
    days = {match.date for match in draft.fixtures}
    return f" on {counted(len(days), 'day')}" if len(days) < len(draft.fixtures) else ""


def _told(output: Path, draft: Draft) -> str:
    frame, many = draft.frame, len(draft.fixtures)
    return (
        f"Wrote {output}: {frame.weeks} weeks from {frame.first_monday}, "
        f"{many} match{'es' if many > 1 else ''}{_on_days(draft)}."
    )


def _made_high(draft: Draft) -> list[str]:
    return [
        f"no match stood above low: the one on {date} is made high; check [priorities]"
        for date in draft.priorities
        if not draft.proposed
    ]
