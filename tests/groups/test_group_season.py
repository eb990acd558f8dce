import datetime as dt

import pytest
from group_seasons import BACK

from optimiser.domain.group import Group, GroupSettings
from optimiser.groups.group_rules import rules_after
from optimiser.groups.group_season import group_season, weeks_absent
from optimiser.groups.member import members_of
from optimiser.review.score import match_cost_by_week


def test_a_group_that_plays_every_minute_lives_the_season_as_it_is(short):
    assert group_season(short.season, GroupSettings()) == short.season


def test_the_share_of_the_matches_scales_load_fatigue_and_stimulus(short):
    half = group_season(short.season, GroupSettings(match_share=0.5, travels=True))

    assert [w.match_load for w in half.weeks] == [
        round(w.match_load / 2) for w in short.season.weeks
    ]
    assert half.match_fatigue == short.season.match_fatigue / 2
    assert half.qualities[0].match_gain == pytest.approx(0.1)
    assert [w.target for w in half.weeks] == [w.target for w in short.season.weeks]


def test_stimulus_can_be_told_apart_from_minutes(short):
    late = group_season(short.season, GroupSettings(match_share=0.2, match_stimulus=0.6))

    assert late.qualities[0].match_gain == pytest.approx(0.12)


def test_only_a_group_that_neither_plays_nor_travels_pays_nothing(short):
    plays_not = GroupSettings(match_share=0)
    at_home = plays_not.model_copy(update={"travels": False})

    assert max(match_cost_by_week(group_season(short.season, plays_not))) > 0
    assert max(match_cost_by_week(group_season(short.season, at_home))) == 0


def test_a_group_joins_on_the_first_monday_after_it_is_back(short):
    back = GroupSettings(back=BACK)
    monday = GroupSettings(back=dt.date(2026, 9, 21))

    assert weeks_absent(short.season, back) == weeks_absent(short.season, monday) == 3
    weeks = group_season(short.season, back).weeks
    assert [week.closed for week in weeks] == [True] * 3 + [False] * 4
    assert [week.practice_load for week in weeks[:3]] == [0, 0, 0]


def test_rules_are_untouched_for_a_group_that_is_always_there(short, rules):
    assert rules_after(rules, short.season, 0) == rules


def test_a_group_that_joins_late_keeps_what_holds_after_time_off(short, rules):
    season = group_season(short.season, GroupSettings(back=BACK))

    kept = rules_after(rules, season, 3)

    names = {rule.name for rule in rules}
    assert names - {rule.name for rule in kept} == {"revisit", "retesting"}
    changed = {r.name for r in kept if r not in rules}
    assert changed == {"blocks", "pin"}


def test_the_first_group_is_one_that_is_there_all_season(short, rules):
    groups = {Group.SQUAD: GroupSettings(back=BACK), Group.RETURNING: GroupSettings()}

    assert [m.name for m in members_of(short.season, rules, groups)] == ["returning", "squad"]


def test_groups_that_are_all_away_at_first_are_refused(short, rules):
    with pytest.raises(ValueError, match="trains from week 1"):
        members_of(short.season, rules, {Group.SQUAD: GroupSettings(back=BACK)})
