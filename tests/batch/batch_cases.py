"""Small cases that the real solver plans in a blink."""

from made_seasons import make_season, match_on

from constraints.load import load_rules
from optimiser.batch.case import make_case
from optimiser.domain.fixture import Priority

NO_SESSIONS = {"session_caps": {"in_season": {"field": 0, "gym": 0}}}


def small_season(name="Small", weeks=8, low=3):
    fixtures = [match_on(low), match_on(weeks - 1, priority=Priority.HIGH)]
    return make_season(weeks, fixtures=fixtures).model_copy(update={"name": name})


def small_case(name="Small", tables=None, rules="as written", season=None, **more):
    season = season or small_season(name)
    tables = tables or {}
    return make_case(
        season, load_rules(tables), tables, rules_name=rules, file=f"{name}.toml", **more
    )
