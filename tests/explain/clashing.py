"""Seasons that no plan can keep, each for another reason."""

from pathlib import Path

from cli.files.scenario_file import Loaded, load_scenario
from cli.files.scenario_rules import read_rules
from optimiser.rule import Rule

HEAD = 'name = "{name}"\nfirst_monday = 2027-01-04\nweeks = {weeks}\n'


def matches(*weeks: int | tuple[int, str], days: tuple[int, ...] = (5,)) -> str:
    """Return the fixtures of some weeks (from 1), on ``days`` of the week (0 Monday)."""
    import datetime as dt

    rows = []
    for week in weeks:
        number, priority = week if isinstance(week, tuple) else (week, "low")
        for day in days:
            date = dt.date(2027, 1, 4) + dt.timedelta(days=7 * (number - 1) + day)
            rows.append(f'{{ date = {date}, opponent = "Rival {number}", priority = "{priority}" }}')
    return f"fixtures = [ {', '.join(rows)} ]\n"


def rest(first_week: int, last_week: int) -> str:
    """Return a break of whole weeks (from 1)."""
    import datetime as dt

    first = dt.date(2027, 1, 4) + dt.timedelta(days=7 * (first_week - 1))
    last = dt.date(2027, 1, 4) + dt.timedelta(days=7 * last_week - 1)
    return f'[[breaks]]\nkind = "rest"\nfirst = {first}\nlast = {last}\n'


def pins(*choices: str) -> str:
    return "[rules.pin]\nchoices = [ " + ", ".join(f"{{ {each} }}" for each in choices) + " ]\n"


ALL = ("sprint", "resisted_sprint", "plyometrics", "power", "max_strength", "general_strength")

SEASONS: dict[str, str] = {
    # a break ends in the week of a high fixture for which the top band is pinned
    "restart_at_the_top": HEAD.format(name="Restart at the top", weeks=12)
    + matches(6, 7, (11, "high"))
    + rest(9, 10)
    + pins('week = 11, quality = "max_strength", band = 5'),
    # the top band two weeks after a break: three rungs to climb, one change of block at most
    "too_steep": HEAD.format(name="Too steep", weeks=12)
    + matches(4, 5, (12, "high"))
    + rest(8, 9)
    + pins('week = 12, quality = "power", band = 5'),
    # eight demanding weeks in a row leave no room for a lighter first week of a block
    "no_deload": HEAD.format(name="No deload", weeks=14)
    + matches(14)
    + pins(*(f'week = {week}, quality = "{q}", dose = "full"' for week in range(4, 12)
             for q in ALL[:5])),
    # two high fixtures three weeks apart
    "two_peaks": HEAD.format(name="Two peaks", weeks=14) + matches((10, "high"), (13, "high")),
    # three matches a week leave one session, in which two places of work cannot stand
    "crowded": HEAD.format(name="Crowded", weeks=10)
    + matches(7, days=(1, 3, 5)) + "[rules.exposure]\nspared = 4\n",
    # no gym sessions in season, and strength every week
    "no_gym": HEAD.format(name="No gym", weeks=10)
    + matches(7, 8, 9)
    + "[rules.session_caps]\nin_season = { field = 2, gym = 0 }\n",
    # the top rung needs more weeks below it than the season has
    "no_foundation": HEAD.format(name="No foundation", weeks=10)
    + matches(9, (10, "high"))
    + "[rules.foundation]\nweeks = 6\nwithin = 6\n"
    + pins('week = 9, quality = "sprint", band = 4'),
    # fewer contacts allowed than the least plyometric work has
    "budget": HEAD.format(name="Budget", weeks=8)
    + matches(6, 7)
    + "[rules.budget]\nceilings = { contacts = { off_season = 100, pre_season = 100, in_season = 5 } }\n",
    # a full week just after time off
    "full_at_once": HEAD.format(name="Full at once", weeks=10)
    + matches(9) + rest(4, 5)
    + pins(*(f'week = 6, quality = "{q}", dose = "full"' for q in ALL)),
    # work pinned in a closed week
    "work_in_rest": HEAD.format(name="Work in rest", weeks=8)
    + matches(7) + rest(4, 4) + pins('week = 4, quality = "power", dose = "touch"'),
    # a taper week may not have the minutes that are pinned in it
    "heavy_taper": HEAD.format(name="Heavy taper", weeks=10)
    + matches((9, "high"))
    + pins(*(f'week = 9, quality = "{q}", dose = "full"' for q in ALL[:4])),
    # one step down inside the run-in is pinned
    "step_down": HEAD.format(name="Step down", weeks=14)
    + matches((13, "high"))
    + pins('week = 9, quality = "sprint", band = 4', 'week = 13, quality = "sprint", band = 3'),
    # load may not jump, and a full week is pinned after touches
    "load_jump": HEAD.format(name="Load jump", weeks=12)
    + matches(11)
    + "[rules.load_ramp]\npercent = 0\nallowance = 0\nfloor = 0\n"
    + "[rules.progression]\nuse = false\n[rules.deload]\nuse = false\n"
    + pins(*(f'week = {w}, quality = "{q}", dose = "{d}"' for w, d in ((6, "touch"), (7, "touch"), (8, "touch"), (9, "touch"), (10, "full"))
             for q in ALL)),
}


def clashing(name: str) -> tuple[Loaded, list[Rule]]:
    """Return one of the seasons and its rules."""
    loaded = load_scenario(SEASONS[name], Path(f"{name}.toml"))
    table = dict(loaded.scenario.rules)
    del table
    from constraints.load import load_rules

    return loaded, load_rules(loaded.scenario.rules, loaded.season)
