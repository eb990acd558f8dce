"""Calendars that were played, typed in from published fixture lists."""

import datetime as dt
from itertools import pairwise

import pytest

from constraints.congestion import Congestion
from constraints.spacing import Spacing
from optimiser.days.day import Kind, season_days
from optimiser.days.room import week_room
from optimiser.days.week import WeekMaker
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Phase, Season, Week
from optimiser.joint_model.solve import make_board
from optimiser.setup.matches import gaps
from optimiser.setup.qualities import default_qualities

RULE = Spacing()

# Rugby World Cup 2023, published fixture list (knock-out dates by team from memory): days of
# September, then of October.
RUGBY = {
    "New Zealand": ([8, 15, 29], [5, 14, 20, 28], [7, 14, 6, 9, 6, 8]),
    "South Africa": ([10, 17, 23], [1, 15, 21, 28], [7, 6, 8, 14, 6, 7]),
    "France": ([8, 14, 21], [6, 15], [6, 7, 15, 9]),
    "Ireland": ([9, 16, 23], [7, 14], [7, 7, 14, 7]),
    "Namibia": ([9, 15, 21, 27], [], [6, 6, 6]),
    "Uruguay": ([14, 20, 27], [5], [6, 7, 8]),
    "Scotland": ([10, 24, 30], [7], [14, 6, 7]),
}
# Paris 2024, men's hockey, matches of India by the schedule of 6 March 2024; the first five starts
# in Indian time.
HOCKEY = [(7, 27), (7, 29), (7, 30), (8, 1), (8, 2), (8, 4), (8, 6), (8, 8)]
STARTS = ["21:00", "16:15", "16:45", "13:30", "16:45"]


def rugby(team):
    september, october, _ = RUGBY[team]
    return [dt.date(2023, 9, day) for day in september] + [
        dt.date(2023, 10, day) for day in october
    ]


def hockey():
    return [dt.date(2024, month, day) for month, day in HOCKEY]


def kick_off(number):
    return dt.time.fromisoformat(STARTS[number]) if number < len(STARTS) else None


def season(dates, clock=lambda _: None):
    """Return the weeks from the one before the first match to the one after the last."""
    fixtures = [Fixture(date=date, kickoff=clock(n)) for n, date in enumerate(dates)]
    first = dates[0] - dt.timedelta(days=dates[0].weekday() + 7)
    count = (dates[-1] - first).days // 7 + 2
    mondays = [first + dt.timedelta(weeks=number) for number in range(count)]
    qualities = default_qualities()
    return Season(
        name="Tournament",
        weeks=tuple(
            Week(
                index=index,
                monday=monday,
                phase=Phase.IN,
                fixtures=tuple(f for f in fixtures if 0 <= (f.date - monday).days < 7),
                target=70,
                match_load=640 * sum(0 <= (f.date - monday).days < 7 for f in fixtures),
            )
            for index, monday in enumerate(mondays)
        ),
        qualities=qualities,
        emphasis=((50.0,) * count,) * len(qualities),
    )


def gaps_of(made):
    """Return the days from each match to the next."""
    return [after - before for before, after in gaps(made)]


def most(dates, days):
    """Return the most matches in any ``days`` days."""
    return max(sum(0 <= (date - first).days < days for date in dates) for first in dates)


@pytest.mark.parametrize("team", RUGBY)
def test_rugby_gaps_are_those_of_the_list_and_six_days_at_least(team):
    found = gaps_of(season(rugby(team)))

    assert found == RUGBY[team][2]
    # World Rugby 2021: at least five days of rest between matches.
    assert min(found) >= 6


@pytest.mark.parametrize("team", RUGBY)
def test_two_rugby_matches_fall_into_seven_days_only_where_six_days_lie_between(team):
    assert most(rugby(team), 7) == (2 if 6 in RUGBY[team][2] else 1)


@pytest.mark.parametrize("team", RUGBY)
def test_every_rugby_turnaround_leaves_days_for_hard_leg_work_two_days_from_both_matches(team):
    days = [day for week in season_days(season(rugby(team)), RULE) for day in week]

    for before, after in pairwise(rugby(team)):
        hard = [day.date for day in days if day.hard and before < day.date < after]
        assert len(hard) >= 2
        assert (hard[0] - before).days >= 2
        assert (after - hard[-1]).days >= 2


@pytest.mark.parametrize("team", RUGBY)
def test_rugby_weeks_within_the_rule_are_placed_without_a_fault(team):
    made = season(rugby(team))
    rooms = [week_room(days, RULE) for days in season_days(made, RULE)]
    plan = _plan(made, [Dose.FULL if room.hard else Dose.TOUCH for room in rooms])
    plan = plan.model_copy(
        update={
            "field": tuple(min(2, room.field) for room in rooms),
            "gym": tuple(min(1, room.gym) for room in rooms),
        }
    )

    assert all(room.hard for room in rooms)
    assert RULE.audit(plan, made) == []
    maker = WeekMaker(made, RULE)
    assert [maker.week(plan, week).faults for week in range(len(rooms))] == [()] * len(rooms)


def test_hockey_gaps_and_counts_are_those_of_the_schedule():
    dates = hockey()

    assert gaps_of(season(dates)) == [2, 1, 2, 1, 2, 2, 2]
    assert (dates[-1] - dates[0]).days + 1 == 13
    assert (most(dates, 7), most(dates, 3)) == (5, 2)
    assert [len(week.fixtures) for week in season(dates).weeks] == [0, 1, 5, 2, 0]
    assert [week.monday.isocalendar().week for week in season(dates).weeks[1:4]] == [30, 31, 32]


def test_hockey_starts_are_a_day_apart_at_least():
    starts = [dt.datetime.combine(date, kick_off(n)) for n, date in enumerate(hockey()[:5])]
    hours = [(b - a).total_seconds() / 3600 for a, b in pairwise(starts)]

    assert hours == [43.25, 24.5, 44.75, 27.25]
    # What organisers leave between two matches (press, 19 February 2012): about 22 h.
    assert min(hours) >= 22


@pytest.mark.parametrize("clock", [kick_off, lambda _: None])
def test_a_hockey_tournament_leaves_no_day_for_any_session_until_it_is_over(clock):
    made = season(hockey(), clock)
    first, last = hockey()[0], hockey()[-1]
    inside = [day for week in season_days(made, RULE) for day in week if first <= day.date <= last]

    assert {day.kind for day in inside} == {Kind.MATCH, Kind.RECOVERY}
    assert not any(day.hard for day in inside)


def test_a_hockey_tournament_allows_no_hard_session_in_its_full_weeks():
    made = season(hockey(), kick_off)
    full = [
        _plan(made, [Dose.NONE] * week + [Dose.REDUCED] + [Dose.NONE] * (4 - week))
        for week in (2, 3)
    ]

    # The week of five matches and the one that begins with the last two.
    assert week_room(season_days(made, RULE)[2], RULE).field == 0
    assert {b.part for b in RULE.audit(full[0], made)} >= {"field", "gym", "hard"}
    assert {b.part for b in Congestion().audit(full[0], made)} == {"sessions", "hard"}
    assert "hard" in {b.part for b in Congestion().audit(full[1], made)}


def test_the_solver_may_take_no_session_in_the_week_of_five_matches():
    made = season(hockey(), kick_off)
    board = make_board(made, [RULE])
    bounds = [
        row.high
        for row in board.model.rows
        if row.tag is not None
        and row.tag.week == 2
        and row.tag.part in ("field", "gym", "sessions")
    ]

    assert bounds == [0, 0, 0]


def _plan(made, doses):
    """Return a plan with every quality at the week's dose, and one session of each place."""
    return Plan(
        starts=(0,),
        rungs=((2,) * len(doses),) * len(made.qualities),
        doses=(tuple(doses),) * len(made.qualities),
        field=tuple(int(dose > 0) for dose in doses),
        gym=tuple(int(dose > 0) for dose in doses),
    )
