"""Crowded fixtures: the rule's classes against studies of injuries and recovery."""

from statistics import fmean

import pytest
from made_seasons import season_of_matches

from constraints.congestion import Congestion
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.setup.matches import busiest_seven

RULE = Congestion()


def most_sessions(made, week):
    """Return the most sessions the rule allows in a week (from 0)."""
    for field in range(5, -1, -1):
        plan = busy_plan(made, field)
        if not [b for b in RULE.audit(plan, made) if b.week == week and b.part == "sessions"]:
            return field
    raise AssertionError("not even a week without sessions is allowed")


def busy_plan(made, sessions, dose=Dose.TOUCH):
    weeks = len(made.weeks)
    return Plan(
        starts=(0,),
        rungs=((2,) * weeks,) * len(made.qualities),
        doses=((dose,) * weeks,) * len(made.qualities),
        field=(sessions,) * weeks,
        gym=(0,) * weeks,
    )


# Dupont et al. 2010, "Effect of 2 soccer matches in a week on physical performance and injury
# rate", AJSM 38(9):1752-8: 25.6 against 4.1 injuries per 1000 h with two matches in seven days.
def test_two_matches_in_seven_days_are_congested_wherever_the_week_begins():
    # Saturday and the Friday after: two matches in seven days, one in each calendar week.
    made = season_of_matches(5, 11)

    assert [len(week.fixtures) for week in made.weeks[:2]] == [1, 1]
    assert busiest_seven(made)[1] == 2
    assert busiest_seven(season_of_matches(5, 12))[1] == 1


# Dupont et al. 2010: six times the injuries, so a week of two matches is lighter.
def test_a_congested_week_has_fewer_sessions():
    assert most_sessions(season_of_matches(9, 13), 1) < most_sessions(season_of_matches(13), 1)


# The same: hard work for the legs falls with it. That none is left with a match every second day is
# our reading.
def test_the_nearer_the_matches_the_less_hard_work_for_the_legs():
    left = [hard_left(season_of_matches(*days)) for days in ([13], [9, 13], [7, 9, 11, 13])]

    assert left == sorted(left, reverse=True)
    assert left[0] > left[1] > left[2] == 0


def hard_left(made):
    """Return the qualities of the legs that may be above a touch in the second week."""
    whole = sum(quality.lower_body for quality in made.qualities)
    found = RULE.audit(busy_plan(made, 1, Dose.REDUCED), made)
    return whole - sum(b.excess for b in found if b.week == 1 and b.part == "hard")


# Bengtsson et al. 2018, "Muscle injury rate in professional football is higher in matches played
# within 5 days since the previous match", BJSM 52(17):1116-22: classes of up to 3, 4, 5, 6 and 7 to
# 10 days; only from 6 days on is the rate lower (rate ratio 0.79).
def test_only_from_six_days_between_on_is_a_week_worked_in_full():
    held = {days: sessions_between(days) for days in range(1, 8)}

    assert max(held[days] for days in range(1, 6)) < min(held[6], held[7])


# Silva J. et al. 2018, Sports Med 48:539-83, conclude that 72 h are not enough to recover; coaches
# leave 48 h (Cross R. et al. 2019, EJSS 19(10):1287-96). No session at all between is ours.
@pytest.mark.parametrize("days", [1, 2])
def test_nothing_fits_between_matches_within_two_days(days):
    assert sessions_between(days) == 0


def sessions_between(days):
    """Return the sessions allowed between two matches, with a match every ``days`` days."""
    made = season_of_matches(*range(0, 70, days), weeks=10)
    rule = Congestion(sessions=(9, 9, 9, 9))
    left = dict.fromkeys(range(1, 9), 9)
    for breach in rule.audit(busy_plan(made, 9), made):
        if breach.part == "sessions" and breach.week in left:
            left[breach.week] = 9 - breach.excess
    return fmean(left.values()) * days / 7


# Weldon et al. 2022, Biol Sport 39(3):715-26, Table 3: two or three gym sessions a week in season.
def test_a_usual_week_in_season_holds_the_two_or_three_sessions_of_the_surveys():
    assert most_sessions(season_of_matches(5, 12, 19, 26), 1) == 3
