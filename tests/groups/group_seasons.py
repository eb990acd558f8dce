"""Seven weeks with groups, as files."""

import datetime as dt
from random import Random

from made_seasons import random_season

from optimiser.domain.group import Group, GroupSettings
from optimiser.domain.season import Season

SHORT = """\
name = "Brookmere Autumn"
first_monday = 2026-08-31
weeks = 7
fixtures = [ { date = 2026-10-03, opponent = "Tolland", travel_hours = 2 },
             { date = 2026-10-17, opponent = "Ashby Vale", priority = "high" } ]

[qualities.sprint]
match_gain = 0.2
"""
TABLES = """
[groups.starters]
[groups.non-playing]
match_share = 0
[groups.returning]
match_share = 0
back = 2026-09-16
"""
SQUAD = """name,group,body_mass_kg,squat_1rm_kg,cleared
Maren Holloway,starters,63.5,95,
Odile Marchetti,non-playing,64,90,
Petra Wynnick,returning,62,92.5,yes
Saffi Penrose,squad,61,80,
"""
STARTERS = {Group.STARTERS: GroupSettings()}
TWO = {**STARTERS, Group.NON_PLAYING: GroupSettings(match_share=0)}
#: A Wednesday: the third week is over when they join.
BACK = dt.date(2026, 9, 16)
THREE = {**TWO, Group.RETURNING: GroupSettings(match_share=0, back=BACK)}


def with_match_gain(season: Season, gain: float) -> Season:
    qualities = [quality.model_copy(update={"match_gain": gain}) for quality in season.qualities]
    return season.model_copy(update={"qualities": tuple(qualities)})


def season_with_match_gain(seed: int) -> Season:
    rng = Random(seed)
    season = random_season(rng)
    qualities = [
        quality.model_copy(update={"match_gain": rng.choice((0.0, 0.1, 0.35))})
        for quality in season.qualities
    ]
    return season.model_copy(update={"qualities": tuple(qualities)})
