"""A league: every club with its fixtures and its calendar."""

import datetime as dt
from dataclasses import dataclass, field
from random import Random

from optimiser.domain.fixture import Break, Fixture, Priority
from optimiser.league.berger import double_table
from optimiser.league.clubs import MAP_KM, LeagueClub, invent_clubs, neighbours
from optimiser.league.cup import draw_cup
from optimiser.league.priorities import rank_peaks
from optimiser.league.public_holidays import public_holidays
from optimiser.league.settings import LeagueSettings
from optimiser.league.slots import SATURDAY, Slots, place_rounds
from optimiser.league.year import Year, shape_year

LEAGUE, CUP = "League", "Cup"
KICKOFF = {True: dt.time(15, 0), False: dt.time(19, 45)}


@dataclass(frozen=True)
class ClubSeason:
    """One club's year.

    Parameters
    ----------
    fixtures
        By date.
    breaks
        Days of rest and byes, by first day.
    """

    club: LeagueClub
    first_monday: dt.date
    weeks: int
    fixtures: list[Fixture] = field(default_factory=list)
    breaks: list[Break] = field(default_factory=list)


def make_league(settings: LeagueSettings) -> list[ClubSeason]:
    """Return the seasons of every club of a league.

    Everyone meets everyone at home and away; a knock-out cup is played beside it, its results
    left to chance. Matches between neighbours and cup semi-finals are ``medium``; a club's
    last league match and the cup final are ``high``.

    Raises
    ------
    SetupError
        If the weeks are too few, or the country's holidays cannot be had.
    """
    chance = Random(settings.seed)
    days = _holidays(settings)
    clubs = invent_clubs(settings.clubs, chance)
    table = double_table(settings.clubs, swap=settings.swap)
    draw = draw_cup(settings.clubs, chance)
    year = shape_year(settings, len(table) + len(draw), days)
    early = chance.random() < 0.5
    slots = place_rounds(year, len(table), len(draw), settings.congestion, early)
    seasons = [ClubSeason(club, settings.start, settings.weeks) for club in clubs]
    _play_league(seasons, year, slots, table)
    _play_cup(seasons, year, slots, draw)
    return [_finished(season, year, days) for season in seasons]


def _holidays(settings: LeagueSettings) -> dict[dt.date, str]:
    if settings.country is None:
        return {}
    last = settings.start + dt.timedelta(days=7 * settings.weeks - 1)
    return public_holidays(settings.country, settings.start, last)


def _play_league(
    seasons: list[ClubSeason], year: Year, slots: Slots, table: list[list[tuple[int, int]]]
) -> None:
    derbies = neighbours([season.club for season in seasons])
    for (week, weekday), pairs in zip(slots.league, table, strict=True):
        day = year.day(week, weekday)
        for home, away in pairs:
            here = frozenset((home - 1, away - 1))
            rank = Priority.MEDIUM if here in derbies else Priority.LOW
            _meet(seasons[home - 1], seasons[away - 1], day, LEAGUE, rank)
        if weekday == SATURDAY:
            _note_byes(seasons, pairs, day)


def _note_byes(seasons: list[ClubSeason], pairs: list[tuple[int, int]], day: dt.date) -> None:
    playing = {number for pair in pairs for number in pair}
    for number, season in enumerate(seasons, 1):
        if number not in playing:
            season.breaks.append(Break(kind="bye", first=day, last=day, note="No opponent"))


def _play_cup(
    seasons: list[ClubSeason], year: Year, slots: Slots, draw: list[list[tuple[int, int]]]
) -> None:
    for (week, weekday), pairs in zip(slots.cup, draw, strict=True):
        left = len(draw) - draw.index(pairs)
        name = {1: "final", 2: "semi-final"}.get(left, f"round {len(draw) - left + 1}")
        rank = {1: Priority.HIGH, 2: Priority.MEDIUM}.get(left, Priority.LOW)
        for home, away in pairs:
            day = year.day(week, weekday)
            _meet(seasons[home], seasons[away], day, f"{CUP}, {name}", rank, left == 1)


def _meet(
    home: ClubSeason,
    away: ClubSeason,
    day: dt.date,
    competition: str,
    priority: Priority,
    neutral: bool = False,
) -> None:
    kickoff = KICKOFF[day.weekday() == SATURDAY]
    east, north = (MAP_KM / 2, MAP_KM / 2) if neutral else (home.club.east, home.club.north)
    for season, other, venue in ((home, away, "home"), (away, home, "away")):
        fixture = Fixture.model_validate(
            {
                "date": day,
                "kickoff": kickoff,
                "opponent": other.club.name,
                "competition": competition,
                "venue": "neutral" if neutral else venue,
                "priority": priority,
                "travel_hours": season.club.hours_to(east, north),
            }
        )
        season.fixtures.append(fixture)


def _finished(season: ClubSeason, year: Year, days: dict[dt.date, str]) -> ClubSeason:
    fixtures = rank_peaks(sorted(season.fixtures, key=lambda fixture: fixture.date))
    breaks = [*season.breaks, *_rest(year), *_days_off(year, days, fixtures)]
    breaks.sort(key=lambda item: (item.first, item.kind))
    return ClubSeason(season.club, season.first_monday, season.weeks, fixtures, breaks)


def _rest(year: Year) -> list[Break]:
    rests = [(year.last + 1, year.weeks - 1, "Closed season")]
    if year.rest is not None:
        rests.append((year.rest, year.rest, "Mid-season break"))
    return [
        Break(kind="rest", first=year.day(first, 0), last=year.day(last, 6), note=note)
        for first, last, note in rests
        if first <= last
    ]


def _days_off(year: Year, days: dict[dt.date, str], fixtures: list[Fixture]) -> list[Break]:
    taken = {fixture.date for fixture in fixtures}
    closed = {day for item in _rest(year) for day in days if item.first <= day <= item.last}
    return [
        Break(kind="rest", first=day, last=day, note=name[:200])
        for day, name in days.items()
        if day not in taken | closed
    ]
