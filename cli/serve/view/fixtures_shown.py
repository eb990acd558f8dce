"""The matches on the page."""

from typing import Any

from cli.files.changes_file import ChangedSeason
from cli.render.clean_text import clean
from cli.render.signs import MATCH_SIGNS
from cli.serve.side import SeasonSide
from optimiser.domain.fixture import Fixture
from optimiser.domain.season import Season


def fixtures(here: SeasonSide, changed: ChangedSeason | None) -> list[dict[str, Any]]:
    """Return the matches of the season as it is, by date."""
    before = {now: was for was, now in changed.pairs if now is not None} if changed else {}
    scores = _ready(here)
    rows = []
    for fixture in here.season.fixtures:
        was = before.get(fixture, fixture)
        row = fixture_data(here.season, fixture)
        row["new"] = was != fixture
        row["was"] = None if was is None or was.date == fixture.date else was.date.isoformat()
        row["ready"] = scores.get(row["week"])
        rows.append(row)
    return rows


def fixture_data(season: Season, fixture: Fixture) -> dict[str, Any]:
    """Return one match."""
    days = (fixture.date - season.weeks[0].monday).days
    return {
        "date": fixture.date.isoformat(),
        "week": days // 7 + 1,
        "day": days % 7,
        "name": clean(fixture.name),
        "opponent": clean(fixture.opponent),
        "competition": clean(fixture.competition),
        "venue": fixture.venue,
        "kickoff": None if fixture.kickoff is None else f"{fixture.kickoff:%H:%M}",
        "travel": fixture.travel_hours,
        "minutes": fixture.minutes,
        "priority": fixture.priority.value,
        "sign": MATCH_SIGNS[fixture.priority],
        "target": round(season.weeks[days // 7].target),
    }


def without_date(changed: ChangedSeason | None) -> list[dict[str, Any]]:
    """Return the matches that were taken out of the calendar, which may come back."""
    if changed is None:
        return []
    gone = [was for was, now in changed.pairs if was is not None and now is None]
    return [
        {
            **fixture.model_dump(mode="json", exclude_defaults=True, exclude={"date"}),
            "was": fixture.date.isoformat(),
            "name": clean(fixture.name),
            "sign": MATCH_SIGNS[fixture.priority],
            "priority": fixture.priority.value,
        }
        for fixture in gone
    ]


def _ready(here: SeasonSide) -> dict[int, float]:
    """Return the planned readiness of each week, by its number."""
    document = here.document
    return {} if document is None else {w.week: round(w.readiness, 1) for w in document.weeks}
