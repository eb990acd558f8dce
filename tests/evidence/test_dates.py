"""Dates against independent engines: public holidays and clock changes."""

import datetime as dt
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from cli.files.fixtures_found import ListFacts
from cli.files.fixtures_ics import find_fixtures_ics
from optimiser.domain.scenario import Scenario
from optimiser.league.public_holidays import public_holidays
from optimiser.setup.calendar import week_of

YEAR = (dt.date(2026, 1, 1), dt.date(2026, 12, 31))
# Published lists of 2026: GOV.UK (England and Wales), citizensinformation.ie, govt.nz (nationwide
# days and days observed instead).
HOLIDAYS = {
    "GB-ENG": "01-01 04-03 04-06 05-04 05-25 08-31 12-25 12-26 12-28",
    "IE": "01-01 02-02 03-17 04-06 05-04 06-01 08-03 10-26 12-25 12-26",
    "NZ": "01-01 01-02 02-06 04-03 04-06 04-25 04-27 06-01 07-10 10-26 12-25 12-26 12-28",
}


@pytest.mark.parametrize("country", HOLIDAYS)
def test_public_holidays_of_2026(country):
    pytest.importorskip("holidays", reason="needs seasonwright[calendar]")
    found = public_holidays(country, *YEAR)

    assert [f"{day:%m-%d}" for day in found] == HOLIDAYS[country].split()


# Gauss's rule for Easter (Western), independent of any table.
def easter(year):
    century, golden = year // 100, year % 19
    moon = (century - century // 4 - (8 * century + 13) // 25 + 19 * golden + 15) % 30
    moon -= moon // 28 * (1 - moon // 28 * (29 // (moon + 1)) * ((21 - golden) // 11))
    day = (year + year // 4 + moon + 2 - century + century // 4) % 7
    back = moon - day
    month = 3 + (back + 40) // 44
    return dt.date(year, month, back + 28 - 31 * (month // 4))


@pytest.mark.parametrize("year", range(2024, 2041))
def test_good_friday_and_easter_monday_follow_the_moon(year):
    pytest.importorskip("holidays", reason="needs seasonwright[calendar]")
    found = public_holidays("GB-ENG", dt.date(year, 3, 1), dt.date(year, 4, 30))

    assert easter(year) - dt.timedelta(days=2) in found
    assert easter(year) + dt.timedelta(days=1) in found


def weekly(tmp_path, zone, first, hour):
    """Return the dates and starts read from a calendar of weekly matches written in UTC."""
    starts = [
        dt.datetime.combine(first + dt.timedelta(weeks=week), dt.time(hour), ZoneInfo(zone))
        for week in range(60)
    ]
    events = "".join(
        f"BEGIN:VEVENT\nUID:{number}\nDTSTART:{start.astimezone(dt.UTC):%Y%m%dT%H%M%SZ}\n"
        "SUMMARY:match\nEND:VEVENT\n"
        for number, start in enumerate(starts)
    )
    path = tmp_path / "list.ics"
    path.write_text(
        f"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//test//\nX-WR-TIMEZONE:{zone}\n{events}"
        "END:VCALENDAR\n"
    )
    return starts, [listed.fixture for listed in find_fixtures_ics(path, ListFacts()).listed]


@pytest.mark.parametrize(
    ("zone", "hour"),
    [
        ("Europe/Dublin", 0),
        ("Europe/Dublin", 23),
        ("Pacific/Auckland", 0),
        ("Pacific/Auckland", 12),
        ("America/St_Johns", 23),
        ("Australia/Lord_Howe", 0),
        ("Asia/Kathmandu", 5),
    ],
)
def test_weekly_starts_keep_their_local_hour_and_day_over_every_clock_change(tmp_path, zone, hour):
    starts, fixtures = weekly(tmp_path, zone, dt.date(2026, 1, 3), hour)

    assert [(f.date, f.kickoff) for f in fixtures] == [(s.date(), s.time()) for s in starts]
    assert {(b.date - a.date).days for a, b in pairwise(fixtures)} == {7}


# Clock changes of 2026: 29 March and 25 October in Europe, 5 April and 27 September in New Zealand.
@pytest.mark.parametrize(
    ("zone", "day", "hours"),
    [
        ("Europe/London", dt.date(2026, 3, 29), 23),
        ("Europe/London", dt.date(2026, 10, 25), 25),
        ("Pacific/Auckland", dt.date(2026, 9, 27), 23),
        ("Pacific/Auckland", dt.date(2026, 4, 5), 25),
    ],
)
def test_a_day_of_23_or_25_hours_is_one_day_of_the_season(zone, day, hours):
    midnight = [
        dt.datetime.combine(date, dt.time(), ZoneInfo(zone)).astimezone(dt.UTC)
        for date in (day, day + dt.timedelta(days=1))
    ]
    monday = day - dt.timedelta(days=day.weekday())
    scenario = Scenario(name="Clock", first_monday=monday, weeks=2)

    assert midnight[1] - midnight[0] == dt.timedelta(hours=hours)
    assert [week_of(scenario, day), week_of(scenario, day + dt.timedelta(days=1))] == [0, 1]
