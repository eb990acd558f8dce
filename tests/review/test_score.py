import math

import pytest
from made_seasons import make_season, match_on

from optimiser.domain.fixture import Priority
from optimiser.review.score import fixture_score, match_score, quality_curve, readiness
from optimiser.setup.qualities import default_qualities

#: Weeks (from 0) of a match that matters much, something and little.
WEEKS = {Priority.HIGH: 11, Priority.MEDIUM: 8, Priority.LOW: 5}


@pytest.fixture
def season():
    fixtures = [match_on(week, priority=priority) for priority, week in WEEKS.items()]
    return make_season(12, fixtures=fixtures, qualities=default_qualities())


def reaching(season, plan, shares):
    """Return the season with targets of which ``plan`` reaches these shares at its fixtures."""
    ready, _ = readiness(season, plan)
    targets = {
        WEEKS[priority]: ready[WEEKS[priority]] / share for priority, share in shares.items()
    }
    weeks = tuple(
        week.model_copy(update={"target": targets.get(week.index, week.target)})
        for week in season.weeks
    )
    return season.model_copy(update={"weeks": weeks})


def test_a_high_match_counts_three_times_and_a_medium_one_twice(season, plain_plan):
    plan = plain_plan(season, rung=1)
    shares = {Priority.HIGH: 0.9, Priority.MEDIUM: 0.6, Priority.LOW: 0.3}

    found = match_score(reaching(season, plan, shares), plan)

    assert (found.at_high, found.at_medium, found.at_low) == pytest.approx((90, 60, 30))
    assert found.score == pytest.approx((3 * 90 + 2 * 60 + 30) / 6)


def test_more_than_the_target_makes_up_for_nothing(season, plain_plan):
    plan = plain_plan(season, rung=1)
    shares = {Priority.HIGH: 1.5, Priority.MEDIUM: 1.0, Priority.LOW: 0.5}

    found = match_score(reaching(season, plan, shares), plan)

    assert found.at_high == pytest.approx(100)
    assert found.score == pytest.approx((5 * 100 + 50) / 6)


@pytest.mark.parametrize(
    ("ready", "target", "score"),
    [(45, 90, 50), (90, 90, 100), (120, 90, 100), (-5, 90, 0), (10, 0, 100), (-10, 0, 100)],
)
def test_a_fixture_scores_the_share_of_its_target_from_nought_to_a_hundred(ready, target, score):
    assert fixture_score(ready, target) == score


def test_a_season_without_matches_has_no_score(plain_plan):
    season = make_season(6, qualities=default_qualities())

    assert match_score(season, plain_plan(season)).score is None


def test_the_level_a_year_starts_at_fades_as_fitness_does(plain_plan):
    plain = make_season(6)
    begun = tuple(each.model_copy(update={"start": 70.0}) for each in plain.qualities)
    season = plain.model_copy(update={"qualities": begun})
    plan = plain_plan(plain)
    pairs = zip(quality_curve(season, plan, 0), quality_curve(plain, plan, 0), strict=True)
    fade = [math.exp(-7 * week / begun[0].tau_fitness) for week in range(1, 7)]

    assert [with_it - without for with_it, without in pairs] == pytest.approx(
        [(70.0 - plain.qualities[0].start) * left for left in fade]
    )
