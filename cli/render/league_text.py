"""A club's season as a scenario file and its fixtures as a CSV file."""

import csv
import io

from cli.files.safe_cell import safe_cell
from cli.render.scenario_text import toml_string
from optimiser.domain.fixture import Break, Fixture
from optimiser.league.league import ClubSeason

COLUMNS = ("date", "kickoff", "opponent", "competition", "venue", "priority", "travel_hours")


def season_text(season: ClubSeason, fixtures_file: str) -> str:
    """Return the scenario of one club, naming its ``fixtures_file``."""
    head = [
        "# An invented club in an invented league.",
        f"name = {toml_string(league_season(season))}",
        f"first_monday = {season.first_monday}",
        f"weeks = {season.weeks}",
        f"fixtures_file = {toml_string(fixtures_file)}",
    ]
    return "\n\n".join(["\n".join(head), *map(_break_text, season.breaks)]) + "\n"


def league_season(season: ClubSeason) -> str:
    """Return what the season is called."""
    return f"{season.club.name} {season.first_monday.year}"


def fixtures_text(season: ClubSeason) -> str:
    """Return the fixtures as CSV, by date."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(COLUMNS)
    rows.writerows(map(safe_cell, _cells(fixture)) for fixture in season.fixtures)
    return out.getvalue()


def _break_text(item: Break) -> str:
    return "\n".join(
        [
            "[[breaks]]",
            f'kind = "{item.kind}"',
            f"first = {item.first}",
            f"last = {item.last}",
            f"note = {toml_string(item.note)}",
        ]
    )


def _cells(fixture: Fixture) -> list[str]:
    kickoff = f"{fixture.kickoff:%H:%M}" if fixture.kickoff else ""
    return [
        fixture.date.isoformat(),
        kickoff,
        fixture.opponent,
        fixture.competition,
        fixture.venue,
        fixture.priority.value,
        f"{fixture.travel_hours:g}",
    ]
