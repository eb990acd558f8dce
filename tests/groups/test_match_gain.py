from random import Random

import numpy as np
import pytest
from group_seasons import season_with_match_gain, with_match_gain
from made_seasons import make_season, match_on, random_plan, random_season

from optimiser.response.readiness import kernel, match_points, outside
from optimiser.review.score import readiness


def by_kernel(season, plan):
    """Readiness by quality and week, added up from the kernel's tables."""
    made = kernel(season)
    found = made.background.copy()
    for index, points in enumerate(made.points):
        for past, rung in enumerate(plan.rungs[index]):
            if rung is not None:
                lags = len(season.weeks) - past
                found[index, past:] += points[:lags, rung, plan.doses[index][past]]
    return found


@pytest.mark.parametrize("seed", range(25))
def test_kernel_and_recursion_agree_on_what_matches_give(seed):
    season = season_with_match_gain(seed)
    plan = random_plan(Random(seed), season)

    total, by_quality = readiness(season, plan)

    assert np.allclose(by_kernel(season, plan), by_quality, atol=1e-9)
    assert np.allclose(kernel(season).shares @ by_kernel(season, plan), total, atol=1e-9)


@pytest.mark.parametrize("seed", range(10))
def test_without_match_gain_the_background_is_the_start_less_what_matches_cost(seed):
    season = random_season(Random(seed))

    made = kernel(season)

    weeks = np.arange(1, len(season.weeks) + 1)
    start = [q.start * np.exp(-7 * weeks / q.tau_fitness) for q in season.qualities]
    assert np.array_equal(made.background, np.array(start) - outside(season))


@pytest.mark.parametrize("seed", range(10))
def test_a_match_gives_only_to_the_qualities_that_say_so(seed):
    season = random_season(Random(seed))
    first = season.qualities[0].model_copy(update={"match_gain": 0.3})
    gaining = season.model_copy(update={"qualities": (first, *season.qualities[1:])})
    plan = random_plan(Random(seed), season)

    before, after = readiness(season, plan)[1], readiness(gaining, plan)[1]

    assert before[1:] == after[1:]
    assert all(new >= old for old, new in zip(before[0], after[0], strict=True))


def test_a_match_counts_from_the_day_after_and_not_for_itself():
    season = with_match_gain(make_season(3, fixtures=[match_on(1)]), 0.2)

    given = match_points(season.qualities[0], season)

    assert list(given[:2]) == [0.0, 0.0]
    assert given[2] > 0


def test_a_match_gives_its_share_of_a_full_dose_fading_by_the_day():
    # Saturday to the Sunday of the next week: 8 days of a time constant of 40
    season = with_match_gain(make_season(2, fixtures=[match_on(0)]), 0.25)
    quality = season.qualities[0]
    full_dose = kernel(season).points[0][0, -1, 3]
    raw_share = 1 - season.fatigue_scale * quality.fatigue_ratio  # what is left of 1 - fatigue

    given = match_points(quality, season)[1]

    assert given == pytest.approx(0.25 * full_dose / raw_share * np.exp(-8 / 40))


def test_half_the_minutes_give_half():
    whole = with_match_gain(make_season(3, fixtures=[match_on(0)]), 0.2)
    half_match = match_on(0).model_copy(update={"minutes": whole.match_minutes / 2})
    half = with_match_gain(make_season(3, fixtures=[half_match]), 0.2)

    quality = whole.qualities[0]
    assert np.allclose(match_points(quality, half), match_points(quality, whole) / 2)
