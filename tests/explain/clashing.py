"""Seasons that no plan can keep, each for another reason."""

import datetime as dt
from pathlib import Path

from cli.files.scenario_file import Loaded, load_scenario
from constraints.load import load_rules
from optimiser.rule import Rule

MONDAY = dt.date(2027, 1, 4)
ALL = ("sprint", "resisted_sprint", "plyometrics", "power", "max_strength", "general_strength")


def head(name: str, weeks: int) -> str:
    return f'name = "{name}"\nfirst_monday = {MONDAY}\nweeks = {weeks}\n'


def matches(*weeks: int | tuple[int, str], days: tuple[int, ...] = (5,)) -> str:
    """Return the fixtures of some weeks (from 1), on ``days`` of the week (0 Monday)."""
    rows = []
    for week in weeks:
        number, priority = week if isinstance(week, tuple) else (week, "low")
        for day in days:
            date = MONDAY + dt.timedelta(days=7 * (number - 1) + day)
            rows.append(f'{{ date = {date}, opponent = "R{number}", priority = "{priority}" }}')
    return f"fixtures = [ {', '.join(rows)} ]\n"


def rest(first_week: int, last_week: int) -> str:
    """Return a break of whole weeks (from 1)."""
    first = MONDAY + dt.timedelta(days=7 * (first_week - 1))
    last = MONDAY + dt.timedelta(days=7 * last_week - 1)
    return f'[[breaks]]\nkind = "rest"\nfirst = {first}\nlast = {last}\n'


def pins(*choices: str) -> str:
    return "[rules.pin]\nchoices = [ " + ", ".join(f"{{ {each} }}" for each in choices) + " ]\n"


def doses(weeks: range, qualities: tuple[str, ...], dose: str) -> list[str]:
    return [f'week = {w}, quality = "{q}", dose = "{dose}"' for w in weeks for q in qualities]


SEASONS: dict[str, str] = {
    # a break ends in the week of a high fixture for which the top band is pinned
    "restart_at_the_top": head("Restart at the top", 12)
    + matches(6, 7, (11, "high"))
    + rest(9, 10)
    + pins('week = 11, quality = "max_strength", band = 5'),
    # the top band two weeks after a break: three rungs, and no room for three blocks
    "too_steep": head("Too steep", 12)
    + matches(4, 5, (12, "high"))
    + rest(8, 9)
    + pins('week = 12, quality = "power", band = 5'),
    # eight demanding weeks in a row leave no lighter first week of a block
    "no_deload": head("No deload", 14) + matches(14) + pins(*doses(range(4, 12), ALL[:5], "full")),
    # two high fixtures three weeks apart, each wanted as a peak of its own
    "two_peaks": head("Two peaks", 14)
    + matches((10, "high"), (13, "high"))
    + "[rules.taper]\nsame_peak = 2\n",
    # one session for weeks around three matches, and field and gym work is due in each of them
    "crowded": head("Crowded", 10)
    + matches(7, 9, days=(1, 3, 5))
    + "[rules.congestion]\nsessions = [4, 3, 2, 1]\nbetween = [0, 0, 0]\nkeeps = 1\n",
    # no gym sessions in season, and strength every week
    "no_gym": head("No gym", 10)
    + matches(7, 8, 9)
    + "[rules.session_caps]\nin_season = { field = 2, gym = 0 }\n",
    # an upper rung needs more weeks below it than the season has
    "no_foundation": head("No foundation", 10)
    + matches(9, (10, "high"))
    + "[rules.foundation]\nweeks = 6\nwithin = 6\n"
    + pins('week = 9, quality = "sprint", band = 4'),
    # fewer ground contacts allowed than the least plyometric work has
    "budget": head("Budget", 8)
    + matches(6, 7)
    + "[rules.budget]\n"
    + "ceilings = { contacts = { off_season = 100, pre_season = 100, in_season = 5 } }\n",
    # a full week just after time off
    "full_at_once": head("Full at once", 10)
    + matches(9)
    + rest(4, 5)
    + pins(*doses(range(6, 7), ALL, "full")),
    # work pinned in a closed week
    "work_in_rest": head("Work in rest", 8)
    + matches(7)
    + rest(4, 4)
    + pins('week = 4, quality = "power", dose = "touch"'),
    # a taper week that may not have the minutes pinned in it
    "heavy_taper": head("Heavy taper", 10)
    + matches((9, "high"))
    + pins(*doses(range(9, 10), ALL[:4], "full")),
    # a step down inside the run-in
    "step_down": head("Step down", 14)
    + matches((13, "high"))
    + pins('week = 9, quality = "sprint", band = 4', 'week = 13, quality = "sprint", band = 3'),
    # in season less training on average than practice alone makes
    "light_season": head("Light season", 9) + matches(6, 8) + "[rules.phase_load]\npercent = 30\n",
    # load may not rise, and a full week is pinned after weeks of touches
    "load_jump": head("Load jump", 8)
    + matches(7)
    + "[rules.load_ramp]\npercent = 0\nallowance = 0\nfloor = 0\n"
    + "[rules.progression]\nuse = false\n[rules.deload]\nuse = false\n"
    + pins(*doses(range(2, 6), ALL, "touch"), *doses(range(6, 7), ALL, "full")),
}


def clashing(name: str) -> tuple[Loaded, list[Rule]]:
    """Return one of the seasons and its rules."""
    loaded = load_scenario(SEASONS[name], Path(f"{name}.toml"))
    return loaded, load_rules(loaded.scenario.rules, loaded.season)
