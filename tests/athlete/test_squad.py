import datetime as dt

import pytest
from pydantic import ValidationError

from optimiser.athlete.squad import Athlete, Lift, Restriction, Squad

MONDAY, SUNDAY = dt.date(2026, 9, 7), dt.date(2026, 9, 13)


def athlete(**fields):
    return Athlete(**{"name": "Ada Merrow", "group": "squad", "body_mass_kg": 75, **fields})


@pytest.mark.parametrize(
    ("fields", "young"),
    [
        ({}, False),
        ({"age": 17}, True),
        ({"age": 18}, False),
        ({"under_18": True}, True),
        ({"under_18": True, "age": 16}, True),
    ],
)
def test_who_is_young(fields, young):
    assert athlete(**fields).young is young


def test_an_age_and_a_flag_that_disagree_are_refused():
    with pytest.raises(ValidationError, match="must agree"):
        athlete(age=20, under_18=True)


@pytest.mark.parametrize(
    ("start", "end", "away", "partly"),
    [
        (None, None, False, False),
        (MONDAY, SUNDAY, True, False),
        (None, SUNDAY, True, False),
        (MONDAY, None, True, False),
        (SUNDAY, None, False, True),
        (None, MONDAY, False, True),
        (dt.date(2026, 9, 14), None, False, False),
        (None, dt.date(2026, 9, 6), False, False),
    ],
)
def test_who_is_away(start, end, away, partly):
    found = athlete(unavailable_from=start, unavailable_to=end)

    assert found.away(MONDAY, SUNDAY) is away
    assert found.partly_away(MONDAY, SUNDAY) is partly


def test_a_restriction_holds_on_its_last_day_and_not_after():
    found = athlete(restrictions=(Restriction(tag="knee", last=MONDAY),))

    assert found.banned(MONDAY, SUNDAY) == {"knee"}
    assert found.banned(MONDAY + dt.timedelta(days=1), SUNDAY) == frozenset()


@pytest.mark.parametrize("fields", [{}, {"load_kg": 80}, {"reps": 5}, {"one_rm_kg": -1}])
def test_a_lift_needs_a_1rm_or_a_whole_set(fields):
    with pytest.raises(ValidationError):
        Lift(**fields)


def test_splits_must_rise():
    with pytest.raises(ValidationError, match="rise with distance"):
        athlete(splits={10: 1.9, 20: 1.8})


def test_a_name_that_would_upset_a_terminal_is_refused():
    with pytest.raises(ValidationError, match="printable"):
        athlete(name="Ada \x1b[31m")


def test_names_differ_also_in_more_than_case():
    with pytest.raises(ValidationError, match="name of their own"):
        Squad(athletes=(athlete(), athlete(name="ada merrow")))
