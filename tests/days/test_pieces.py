from all_spreads import spreads
from day_seasons import MINUTES, plan_of, season_of, six_qualities
from hypothesis import given
from hypothesis import strategies as st

from optimiser.days.pieces import Held, Piece, share, week_pieces
from optimiser.days.spacing_settings import SessionLimits
from optimiser.domain.quality import Dose

LIMITS = SessionLimits()


def pieces_of(doses, place="field"):
    season = season_of(weeks=1)
    return week_pieces(season, plan_of(season, doses), 0, place)


@given(total=st.integers(0, 600), parts=st.integers(1, 5))
def test_parts_add_up_and_differ_by_one_at_most(total, parts):
    shares = [share(total, part, parts) for part in range(parts)]

    assert sum(shares) == total
    assert shares == sorted(shares, reverse=True)
    assert shares[0] - shares[-1] <= 1


def test_speed_comes_before_jumps_and_jumps_before_other_work():
    order = [p.quality.key for p in pieces_of({"sled": 3, "jumps": 1, "sprint": 2})]

    assert order == ["sprint", "jumps", "sled"]


def test_work_of_the_other_place_and_doses_of_none_are_left_out():
    doses = {"sprint": 1, "jumps": 0, "power": 2, "upper_body": 3}

    assert [p.quality.key for p in pieces_of(doses, "gym")] == ["power", "upper_body"]


def test_work_is_hard_above_a_touch_and_only_for_the_legs():
    doses = {"power": 1, "strength": 2, "upper_body": 3}

    assert [p.hard for p in pieces_of(doses, "gym")] == [False, True, False]


def test_a_touch_is_done_once_and_more_in_one_or_two_sessions():
    ways = {spread.ways for spread in spreads(pieces_of({"sled": 1}), 3, 45, LIMITS)}
    more = {spread.ways for spread in spreads(pieces_of({"sled": 2}), 3, 45, LIMITS)}

    assert ways == {((0,),), ((1,),), ((2,),)}
    assert more == ways | {((0, 1),), ((0, 2),), ((1, 2),)}


@given(doses=st.lists(st.integers(0, 3), min_size=3, max_size=3), count=st.integers(1, 4))
def test_no_minute_is_lost_or_done_twice(doses, count):
    pieces = [
        Piece(quality, 0, Dose(dose), 2)
        for quality, dose in zip(six_qualities()[:3], doses, strict=True)
        if dose
    ]
    whole = sum(MINUTES[dose - 1] for dose in doses if dose)

    for spread in spreads(pieces, count, 45, LIMITS):
        assert sum(held.minutes for held in spread.sessions) == whole
        assert sum(held.load for held in spread.sessions) == 6 * whole


def test_even_sessions_cost_less_than_uneven_ones_and_long_ones_most():
    pieces = pieces_of({"sprint": 3, "jumps": 3})
    cost = {spread.ways: spread.cost for spread in spreads(pieces, 2, 45, LIMITS)}

    assert cost[(0,), (1,)] < cost[(0, 1), (1,)] < cost[(0,), (0,)]


def test_a_session_without_work_is_the_worst():
    pieces = pieces_of({"sprint": 1, "jumps": 1, "sled": 1})
    found = min(spreads(pieces, 3, 45, LIMITS), key=lambda spread: spread.cost)

    assert all(held.pieces == 1 for held in found.sessions)


def test_no_work_and_no_session_is_one_way():
    assert [spread.sessions for spread in spreads([], 0, 45, LIMITS)] == [()]
    assert [spread.sessions for spread in spreads([], 1, 45, LIMITS)] == [(Held(),)]
