"""A plan that keeps the rule `spacing` has legal days in every week."""

import datetime as dt
from itertools import pairwise

from day_seasons import at, plan_of, season_of
from hypothesis import example, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st
from made_seasons import FIRST_MONDAY

from constraints.spacing import Spacing
from optimiser.days.week import WeekMaker
from optimiser.domain.fixture import Break
from optimiser.domain.quality import Dose
from optimiser.domain.weekday import Weekday

WEEKS = 4
CLOCKS = st.sampled_from([None, "12:30", "15:00", "17:30", "19:45", "21:00"])
MATCHES = st.dictionaries(st.integers(0, 7 * WEEKS - 1), CLOCKS, max_size=14)
RESTS = st.lists(st.tuples(st.integers(0, 7 * WEEKS - 1), st.integers(0, 9)), max_size=2)
RULES = st.builds(
    Spacing,
    hours_since=st.sampled_from([0, 24, 48, 72]),
    hours_until=st.sampled_from([0, 24, 48, 72]),
    hard_hours=st.sampled_from([0, 24, 48, 72, 80]),
    recovery_days=st.integers(0, 2),
    primer_days=st.integers(0, 2),
    primer_minutes=st.sampled_from([0, 10, 25, 60]),
    jump_days=st.integers(1, 4),
    session_days=st.integers(1, 3),
    speed_days=st.integers(1, 4),
    doubles=st.integers(0, 3),
    rest_days=st.lists(st.sampled_from(list(Weekday)), max_size=2, unique=True).map(tuple),
    latest=st.sampled_from([dt.time(10), dt.time(20)]),
    # what is promised is hours and days; that ceilings of load are kept where several days share
    # a week's work is measured, not proven (docs/results/timetables.md)
    day_load=st.just(5000),
    # sessions here are longer than `session_caps` would allow
    day_minutes=st.just(720),
    load_before_1=st.just(900),
    load_before_2=st.just(900),
)
DOSES = st.dictionaries(
    st.sampled_from(["sprint", "sled", "jumps", "power", "strength", "upper_body"]),
    st.integers(1, 3),
)


def calendar(matches, rests):
    fixtures = [at(day // 7, day % 7, clock) for day, clock in sorted(matches.items())]
    breaks = [
        Break(
            kind="rest",
            first=FIRST_MONDAY + dt.timedelta(days=first),
            last=FIRST_MONDAY + dt.timedelta(days=first + length),
        )
        for first, length in rests
    ]
    return season_of(*fixtures, weeks=WEEKS, breaks=breaks)


def kept(rule, season, doses, field, gym):
    """Return the plan with every week cut to what the rule allows and its work can fill."""
    plan = plan_of(season, doses, field, gym)
    rooms = rule.rooms(season)
    rows = [
        tuple(cut(rule, room, quality, row[week]) for week, room in enumerate(rooms))
        for quality, row in zip(season.qualities, plan.doses, strict=True)
    ]
    rows = lighter(season, rooms, rows)
    fields, gyms = [], []
    for week, room in enumerate(rooms):
        parts = [
            sum(
                min(2, row[week])
                for row, q in zip(rows, season.qualities, strict=True)
                if q.place == place
            )
            for place in ("field", "gym")
        ]
        fields.append(min(field, room.field, parts[0]))
        gyms.append(min(gym, room.gym, parts[1], room.both - fields[-1]))
        for index, quality in enumerate(season.qualities):
            if not (fields if quality.place == "field" else gyms)[-1]:
                rows[index] = (*rows[index][:week], Dose.NONE, *rows[index][week + 1 :])
    changes = {"doses": tuple(rows), "field": tuple(fields), "gym": tuple(gyms)}
    return plan.model_copy(update=changes)


def lighter(season, rooms, rows):
    """Lower the fullest doses until every week's load is what its days hold."""
    columns = []
    for week, room in enumerate(rooms):
        doses = [row[week] for row in rows]
        while room.both and room.load < sum(map(load_of, season.qualities, doses)):
            fullest = max(range(len(doses)), key=lambda at: doses[at])
            doses[fullest] = Dose(doses[fullest] - 1)
        columns.append(doses)
    return [tuple(column[at] for column in columns) for at in range(len(rows))]


def load_of(quality, dose):
    return max(quality.load(dose, rung) for rung in range(len(quality.bands)))


def cut(rule, room, quality, dose):
    if room.primer:
        # One touch of each place stays, if its ten minutes and the other's fit: more might not.
        first = quality.key in ("sprint", "power")
        first &= rule.primer_minutes >= (20 if room.alone else 10)
        return min(dose, Dose.TOUCH) if first else Dose.NONE
    return min(dose, Dose.TOUCH) if quality.lower_body and not room.hard else dose


@hypothesis_settings(max_examples=15)
@given(
    rule=RULES,
    matches=MATCHES,
    rests=RESTS,
    doses=DOSES,
    field=st.integers(1, 3),
    gym=st.integers(1, 3),
)
def test_what_the_rule_lets_through_has_legal_days(rule, matches, rests, doses, field, gym):
    season = calendar(matches, rests)
    plan = kept(rule, season, doses, field, gym)
    maker = WeekMaker(season, rule)

    assert rule.audit(plan, season) == []
    for week in range(WEEKS):
        assert maker.week(plan, week).faults == ()


@hypothesis_settings(max_examples=10)
@given(matches=MATCHES, doses=DOSES, field=st.integers(1, 3), gym=st.integers(1, 3))
@example(  # one day must be too full, or hard work stand on two in a row
    matches=dict.fromkeys((0, 1, 2, 3, 13, 16, 21)),
    doses={"sprint": 1, "sled": 1, "jumps": 3, "power": 3, "strength": 3, "upper_body": 3},
    field=1,
    gym=1,
)
def test_hard_work_keeps_its_hours_from_every_match_and_its_neighbours(matches, doses, field, gym):
    rule, season = Spacing(), calendar(matches, [])
    plan = kept(rule, season, doses, field, gym)
    weeks = [WeekMaker(season, rule).week(plan, week) for week in range(WEEKS)]
    hard = [day.date for week in weeks for day in week.days for s in day.sessions if s.hard]

    for date in hard:
        assert all(abs((date - match.date).days) >= 2 for match in season.fixtures)
    different = sorted(set(hard))
    assert all((b - a).days >= 2 for a, b in pairwise(different))


@hypothesis_settings(max_examples=10)
@given(matches=MATCHES, doses=DOSES, field=st.integers(1, 3))
def test_jumps_and_top_speed_keep_their_days_across_weeks_too(matches, doses, field):
    rule, season = Spacing(rest_days=()), calendar(matches, [])
    plan = kept(rule, season, {"sprint": 1, "jumps": 3, **doses}, field, 2)
    weeks = [WeekMaker(season, rule).week(plan, week) for week in range(WEEKS)]
    done = [(day.date, s) for week in weeks for day in week.days for s in day.sessions]
    jumps = [date for date, s in done if any(work.quality == "jumps" for work in s.work)]
    speed = [date for date, s in done if any(work.quality == "sprint" for work in s.work)]
    hard = [date for date, s in done if s.hard]

    assert all((b - a).days >= 2 for a, b in pairwise(jumps))
    assert not any((date - before).days == 1 for date in speed for before in hard)
