import datetime as dt

from optimiser.domain.fixture import Fixture, Priority
from optimiser.setup.events import events_of

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
