import math
import re

import pytest

from optimiser.setup.qualities import default_qualities

LADDERS = {quality.key: quality for quality in default_qualities()}

# Prilepin's table as coaching texts reproduce it: from percent, reps a set, reps in all.
PRILEPIN = [(90, (1, 2), (4, 10)), (80, (2, 4), (10, 20)), (70, (3, 6), (12, 24))]
# NSCA training-load chart (Baechle and Earle): most repetitions at a percentage.
MOST_REPS = {75: 10, 80: 8, 85: 6, 90: 4, 93: 3}


def numbers(band):
    sets, reps, percent = map(int, re.search(r"(\d+) x (\d+) at (\d+) %", band.work).groups())
    return sets, reps, percent


def best_day(quality):
    """Return the days before a match at which a unit of load helps most (Fitz-Clarke 1991)."""
    slow, fast, ratio = quality.tau_fitness, quality.tau_fatigue, quality.fatigue_ratio
    return slow * fast / (slow - fast) * math.log(ratio * slow / fast)


@pytest.mark.parametrize("band", LADDERS["max_strength"].bands, ids=lambda band: band.code)
def test_maximal_strength_sets_lie_inside_prilepins_table(band):
    sets, reps, percent = numbers(band)
    _, a_set, in_all = next(row for row in PRILEPIN if percent >= row[0])

    assert a_set[0] <= reps <= a_set[1]
    assert in_all[0] <= sets * reps <= in_all[1]


def test_maximal_strength_reserve_agrees_with_the_load_chart():
    reserve = [
        int(re.search(r"about (\d) in reserve", band.work)[1])
        for band in LADDERS["max_strength"].bands
    ]

    assert reserve == [
        MOST_REPS[percent] - reps
        for _, reps, percent in map(numbers, LADDERS["max_strength"].bands)
    ]


def test_maximal_strength_gets_heavier_and_shorter_up_the_ladder():
    rows = [numbers(band) for band in LADDERS["max_strength"].bands]
    percents = [percent for _, _, percent in rows]
    totals = [sets * reps for sets, reps, _ in rows]

    assert percents == sorted(set(percents))
    assert totals == sorted(set(totals), reverse=True)


def test_general_strength_goes_from_many_weekly_sets_to_few():
    weekly = [band.amounts["hard_sets"] for band in LADDERS["general_strength"].bands]

    assert weekly == sorted(weekly, reverse=True)
    # Build 10-14 with a ceiling of 20 (Schoenfeld 2017, Baz-Valle 2022), maintain on 3-5
    # (Spiering 2021).
    assert 10 <= weekly[0] <= 20
    assert 3 <= weekly[-1] <= 5


def test_plyometric_contacts_stay_under_the_advanced_ceiling():
    # Potach and Chu, NSCA Essentials: at most 120-140 a session for the advanced.
    assert all(band.amounts["contacts"] <= 140 for band in LADDERS["plyometrics"].bands)


def test_near_top_speed_metres_lie_in_the_published_session_totals():
    # Haugen et al. 2019, Sports Med Open 5:44: 100-300 m of acceleration, 50-150 m at top speed.
    metres = [band.amounts.get("near_top_speed_m", 0) for band in LADDERS["sprint"].bands]

    assert metres[:2] == [0, 0]
    # 20 m runs are acceleration and count their last metres only
    assert 0 < metres[2] < 50
    assert all(50 <= total <= 150 for total in metres[3:])


def test_the_day_on_which_work_helps_most_comes_later_the_slower_the_quality():
    order = [
        "sprint",
        "resisted_sprint",
        "plyometrics",
        "power",
        "general_strength",
        "max_strength",
    ]

    days = [best_day(LADDERS[key]) for key in order]

    # Issurin 2008, J Sports Med Phys Fitness 48:65-75: speed is lost first, strength last.
    assert days == sorted(days)
