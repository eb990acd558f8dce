import datetime as dt

import pytest

from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.scenario import Scenario
from optimiser.response.readiness import outside
from optimiser.setup.build import build_season
from optimiser.setup.events import days_in_a_row, events_of

DAY = dt.date(2026, 9, 12)


def _match(hour=None, *, date=DAY, **given):
    return Fixture(date=date, kickoff=dt.time(hour) if hour else None, **given)


def test_matches_of_one_day_are_one_event_with_their_minutes_added_up():
    pool = [
        _match(10, opponent="Redlow", minutes=14),
        _match(13, opponent="Pinmoor", priority=Priority.MEDIUM, travel_hours=2),
        _match(16, opponent="Redlow", minutes=14),
    ]

    (event,) = events_of(pool, match_minutes=20)

    assert (event.minutes, event.travel_hours, event.priority) == (48, 2, Priority.MEDIUM)
    assert event.opponent == "Redlow and Pinmoor"
    assert event.kickoff is None


def test_matches_of_different_days_stay_as_they_are():
    later = _match(15, date=DAY + dt.timedelta(days=1), opponent="Pinmoor")
    first = _match(15, opponent="Redlow")

    assert events_of([later, first], match_minutes=80) == (first, later)


def test_an_event_of_many_names_has_one_that_is_short_enough():
    day = [_match(opponent=f"A club with quite a long name, number {n}") for n in range(12)]

    (event,) = events_of(day, match_minutes=14)

    assert len(event.opponent) == 200
    assert event.opponent.endswith("...")


@pytest.mark.parametrize(
    ("first", "second", "together"),
    [
        (["Summer Sevens Pool A"], ["Summer Sevens Final"], True),
        (["Tour 1"], ["Tour 1"], True),
        (["League"], ["League"], False),
        ([""], [""], False),
        (["League"], ["County Cup"], False),
        (["Open", "Open"], ["Plate"], True),
    ],
)
def test_days_in_a_row_belong_together_by_competition_or_by_many_matches(first, second, together):
    after = DAY + dt.timedelta(days=1)
    days = [_match(competition="League", date=DAY - dt.timedelta(days=14))]
    days += [_match(competition=name) for name in first]
    days += [_match(date=after, competition=name) for name in second]

    events = [(event.first, event.last) for event in days_in_a_row(days)]

    assert events == ([(DAY, after)] if together else [])


def test_an_event_ends_after_a_week_and_a_day_off_ends_it():
    days = [DAY + dt.timedelta(days=step) for step in (*range(7), 8, 9)]

    events = days_in_a_row([_match(hour, date=day) for day in days for hour in (10, 12)])

    assert [(event.last - event.first).days for event in events] == [6, 1]


def test_a_tournament_is_judged_as_it_begins_and_keeps_its_matches():
    sunday = DAY + dt.timedelta(days=1)
    matches = [_match(10, opponent="A"), _match(12, opponent="B"), _match(14, date=sunday)]
    scenario = Scenario(name="S", first_monday=dt.date(2026, 9, 7), weeks=1)

    season = build_season(scenario, matches)

    assert [match.opponent for match in season.played_on(DAY)] == ["A", "B"]
    assert list(outside(season)) == [0]
