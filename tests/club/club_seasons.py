"""Small squads that share a gym, and the best their club can do, found by trying every share."""

from made_seasons import make_quality, make_season, match_on

from optimiser.club.ground import FREE, Claim, Ground
from optimiser.club.squad_season import SquadSeason, best_plan, cost_of
from optimiser.domain.fixture import Priority
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.ground_minutes import GroundMinutes
from optimiser.joint_model.solve import solve_season

EXACT = Settings(close=0.001, workers=1)
GYM = frozenset({"gym"})
WEEKS = 5


def squad(name="First", weight=1, high=3, rules=()):
    """Return a squad with a ladder on the field and one in the gym, and its best plan alone."""
    ladders = (
        make_quality("sprint", "field", bands=2),
        make_quality("power", "gym", bands=2, minutes=(10, 20, 40)),
    )
    matches = [match_on(high, priority=Priority.HIGH), match_on(high - 2)]
    season = make_season(WEEKS, fixtures=matches, qualities=ladders)
    found = solve_season(season, rules, EXACT)
    return SquadSeason(name, weight, season, tuple(rules), EXACT, found.plan, found.verdict.bound)


def gym(minutes, squads=2, weeks=range(WEEKS)):
    """Return the gym of some weeks, open so many minutes for all squads together."""
    season = squad().season
    claims = [tuple(Claim(at, week, GYM) for at in range(squads)) for week in weeks]
    return [
        Ground(0, season.weeks[week].monday, minutes, mine)
        for week, mine in zip(weeks, claims, strict=True)
    ]


def best_club_cost(squads, ground, step=10):
    """Return what the best plans on one ground cost, by trying every share of its minutes."""
    costs = []
    for mine in range(0, ground.minutes + 1, step):
        shares = zip(squads, (mine, ground.minutes - mine), strict=True)
        cost = 0
        for at, (each, most) in enumerate(shares):
            limits = {(GYM, ground.claim(at).week): most}
            found = best_plan(each, GroundMinutes(FREE.beside, limits=limits), each.plan)
            cost += each.weight * cost_of(each, found.plan)
        costs.append(cost)
    return min(costs)
