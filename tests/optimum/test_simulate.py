"""The day-by-day simulation, and the planner by rules of thumb that it is used on."""

import datetime as dt
from random import Random

import numpy as np
import pytest
from day_by_day import match_readiness, session_days, simulate
from made_seasons import (
    FIRST_MONDAY,
    make_plan,
    make_quality,
    make_season,
    match_on,
    random_season,
)
from rules_of_thumb import greedy
from two_component import Response

from optimiser.domain.fixture import Break, Priority
from optimiser.domain.quality import Dose
from optimiser.response.readiness import match_points
from optimiser.review.audit import structure
from optimiser.review.score import readiness


def one_quality(weeks, **others):
    return make_season(weeks, qualities=[make_quality("power", "gym", bands=2)], **others)


def test_what_a_session_does_follows_the_influence_curve():
    season = one_quality(8)
    quality = season.qualities[0]
    plan = make_plan(season, [0], [[1]], [[1] + [0] * 7])
    season = season.model_copy(
        update={"qualities": (quality.model_copy(update={"start": 0.0}),), "fatigue_scale": 1.0}
    )
    day = session_days(season, season.weeks[0], 1)[0]
    unit = Response(
        fitness_gain=quality.doses.touch.gain,
        fatigue_gain=quality.fatigue_ratio * quality.strain(Dose.TOUCH),
        tau_fitness=quality.tau_fitness,
        tau_fatigue=quality.tau_fatigue,
    )

    ready = np.array(simulate(season, plan).ready)

    after = ready[day + 1 :]
    curve = unit.influence(np.arange(1, len(after) + 1))
    assert after / after[-1] == pytest.approx(curve / curve[-1], rel=1e-9)
    assert not ready[: day + 1].any()


def test_a_rested_athlete_of_the_top_rung_is_at_the_top_of_the_scale():
    season = one_quality(160)
    doses = [3] * 158 + [2, 1]
    plan = make_plan(season, [0], [[1]], [doses])

    ready = simulate(season, plan).ready

    # The athlete that sets the scale trains on other days of the week.
    assert ready[-1] == pytest.approx(100 * season.reach, abs=3)


def test_a_match_costs_readiness_from_the_next_day_on():
    calm, played = one_quality(3), one_quality(3, fixtures=[match_on(1, 2)])
    plan = make_plan(calm, [0], [[0]], [[0, 0, 0]])

    lost = np.array(simulate(calm, plan).ready) - np.array(simulate(played, plan).ready)

    assert not lost[: 7 + 2 + 1].any()
    assert lost[10] == pytest.approx(calm.match_fatigue * np.exp(-1 / calm.match_tau))
    assert (np.diff(lost[10:]) < 0).all()


def test_a_match_gives_its_share_of_a_full_top_dose_from_the_next_day_on():
    played = one_quality(3, fixtures=[match_on(1, 2)])
    (quality,) = played.qualities
    gaining = quality.model_copy(update={"match_gain": 0.2})
    plan = greedy(played)

    before = simulate(played, plan).ready
    after = simulate(played.model_copy(update={"qualities": (gaining,)}), plan).ready

    given = [new - old for new, old in zip(after, before, strict=True)]
    assert given[:10] == [0.0] * 10
    assert given[10] > 0
    assert given[17] == pytest.approx(given[10] * np.exp(-7 / quality.tau_fitness))


def test_what_matches_give_is_the_same_by_the_day_as_by_the_week():
    season = one_quality(3, fixtures=[match_on(0, 5)])
    (quality,) = season.qualities
    gaining = quality.model_copy(update={"match_gain": 0.2})
    by_week = match_points(gaining, season)
    plan = greedy(season)

    before = simulate(season, plan)
    after = simulate(season.model_copy(update={"qualities": (gaining,)}), plan)

    sunday = season.weeks[1].monday + dt.timedelta(days=6)
    assert after.on(sunday) - before.on(sunday) == pytest.approx(by_week[1], rel=0.1)


def test_sessions_stand_apart_and_away_from_matches_and_rest():
    rest = Break(kind="rest", first=FIRST_MONDAY, last=FIRST_MONDAY + dt.timedelta(days=1))
    season = one_quality(1, fixtures=[match_on(0, 5)], breaks=[rest])

    assert session_days(season, season.weeks[0], 2) == [2, 3]
    assert session_days(one_quality(1), one_quality(1).weeks[0], 2) == [0, 6]


def test_the_days_and_the_weeks_tell_the_same_story(minimal):
    plan = greedy(minimal.season)
    by_week = readiness(minimal.season, plan)[0]

    days = simulate(minimal.season, plan)

    by_day = [days.ready[7 * week + 6] for week in range(len(by_week))]
    assert np.corrcoef(by_day, by_week)[0, 1] > 0.95


def test_more_than_the_target_counts_as_the_target():
    season = one_quality(2, fixtures=[match_on(1, 5)])
    low = tuple(week.model_copy(update={"target": 1.0}) for week in season.weeks)

    assert match_readiness(season.model_copy(update={"weeks": low}), greedy(season)) == 100
    assert match_readiness(one_quality(2), greedy(one_quality(2))) == 100


@pytest.mark.parametrize("seed", range(25))
def test_rules_of_thumb_give_something_that_hangs_together(seed):
    season = random_season(Random(seed))

    plan = greedy(season)

    assert [b for b in structure(season, plan) if b.part != "sessions"] == []


def test_rules_of_thumb_go_easy_before_the_fixtures_that_matter():
    season = make_season(12, fixtures=[match_on(9, 5, Priority.HIGH)])
    plan = greedy(season)

    assert {row[week] for row in plan.doses for week in (8, 9)} == {Dose.TOUCH}
    assert plan.doses[0][7] > Dose.TOUCH
