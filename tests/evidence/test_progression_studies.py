"""Progression, return and deload defaults against published limits."""

import pytest
from made_seasons import make_plan, make_quality, make_season

from constraints.blocks import Blocks
from constraints.deload import Deload
from constraints.progression import Progression
from constraints.reentry import Reentry


def season_of(weeks, minutes=(10, 40, 100), closed=()):
    """Return a season of one quality whose doses have the given minutes."""
    return make_season(
        weeks, qualities=[make_quality("power", "gym", minutes=minutes)], closed=closed
    )


def plan_of(season, doses, starts=(0,)):
    return make_plan(season, starts, [[0] * len(starts)], [doses])


# Nielsen et al. 2014, "Excessive progression in weekly running distance and risk of
# running-related injuries", JOSPT 44(10):739-47: 873 novice runners, kilometres. No significant
# difference over all injuries; those tied to distance were 1.59 (0.96-2.66) times as frequent where
# two weeks rose by over 30 %. That minutes of a trained squad behave alike is our reading.
@pytest.mark.parametrize(("rise", "allowed"), [(129, True), (130, True), (131, False)])
def test_two_weeks_may_have_thirty_per_cent_more_than_the_two_before(rise, allowed):
    season = season_of(4, minutes=(50, 100, rise))
    rule = Progression(allowance=0)

    found = rule.audit(plan_of(season, [2, 2, 3, 3]), season)

    assert (not found) is allowed


# Caterisano et al. 2019, "CSCCa and NSCA joint consensus guidelines for transition periods", SCJ
# 41(3):1-23: after two weeks off 50, 70, 80 and 90 % of full volume.
def test_after_two_weeks_off_a_thousand_minutes_come_back_in_four_steps():
    season = season_of(9, minutes=(10, 40, 500), closed=(1, 2))
    twice = {"qualities": season.qualities * 2, "emphasis": season.emphasis * 2}
    season = season.model_copy(update=twice)
    doses = [0, 0, 0, 3, 3, 3, 3, 3, 3]
    plan = make_plan(season, [0, 3], [[0, 0]] * 2, [doses] * 2)

    found = {b.week: 1000 - b.excess for b in Reentry(season_start=False).audit(plan, season)}

    assert found == {3: 500, 4: 700, 5: 800, 6: 900}


@pytest.mark.parametrize(("closed", "counts"), [((1,), False), ((1, 2), True)])
def test_one_week_off_is_no_return_and_two_are(closed, counts):
    season = season_of(8, closed=closed)
    plan = plan_of(season, [3] * 8, starts=(0, max(closed) + 1))

    assert bool(Reentry(season_start=False).audit(plan, season)) is counts


# Issurin 2010, Sports Med 40(3):189-206 (from memory): blocks of two to six weeks; Turner 2011, SCJ
# 33(1):34-46, and Bompa and Haff 2009 (from memory): two to five loading weeks to one easy one.
@pytest.mark.parametrize(
    ("weeks", "allowed"), [(1, False), (3, True), (4, True), (6, True), (8, False)]
)
def test_blocks_outside_the_published_lengths_are_breaches(weeks, allowed):
    season = season_of(2 * weeks)
    plan = plan_of(season, [3] * 2 * weeks, starts=(0, weeks))

    assert (not Blocks().audit(plan, season)) is allowed


# Rogerson et al. 2024, "Deloading practices in strength and physique sports", Sports Med Open 10:26
# (246 lifters): for 6.4 +- 1.7 days, fewer sets, frequency kept.
def test_a_deload_lasts_one_week_and_takes_thirty_to_sixty_per_cent_off():
    season = season_of(4, minutes=(10, 100, 200))

    found = Deload().audit(plan_of(season, [3, 3, 3, 3]), season)

    lighter = [breach for breach in found if breach.unit == "minutes"]
    assert {breach.week for breach in lighter} == {0}
    assert 0.30 <= max(breach.excess for breach in lighter) / 200 <= 0.60


def test_a_deload_keeps_its_sessions():
    season = make_season(4)
    full = make_plan(season, [0], [[0], [0]], [[1, 3, 3, 3]] * 2)
    fewer = full.model_copy(update={"gym": (0, 1, 1, 1)})

    assert not [breach for breach in Deload().audit(full, season) if breach.part == "sessions"]
    assert [breach.week for breach in Deload().audit(fewer, season)] == [0]
