"""The solver's optimum is that of trying every plan."""

from random import Random

import pytest
from every_plan import all_starts, best_doses, best_emphasis, light_plan
from tiny_seasons import tiny_season

from constraints.blocks import Blocks
from constraints.budget import Budget, Ceiling
from constraints.congestion import Congestion
from constraints.deload import Deload
from constraints.exposure import Exposure
from constraints.foundation import Foundation
from constraints.load_ramp import LoadRamp
from constraints.pin import Choice, Pin
from constraints.progression import Progression
from constraints.reentry import Reentry
from constraints.revisit import Revisit
from constraints.session_caps import SessionCaps
from constraints.taper import Taper
from optimiser.engine.branch import Limits, branch
from optimiser.engine.search import Effort, minimise
from optimiser.objective import (
    TENTH,
    Prices,
    emphasis_value,
    price_emphasis,
    price_readiness,
    readiness_value,
)
from optimiser.solve import make_board

PRICES = Prices(block=7)
EFFORT = Effort(deterministic=30)


def price(rng):
    return rng.choice((None, None, 1, 5, 40))


def rung_rules(rng, weeks):
    """Return rules that speak of blocks and rungs only, some of them priced."""
    rules = [
        Blocks(shortest=rng.randint(2, 3), longest=rng.randint(3, 6),
               price=price(rng) if weeks == 6 and rng.random() < 0.3 else None),
        Progression(
            up=rng.randint(1, 2), down=rng.randint(1, 2), volume_rise=200, allowance=1000,
            price=price(rng),
        ),
        Foundation(from_rung=rng.randint(2, 3), weeks=2, within=rng.randint(2, 4),
                   price=price(rng)),
        Reentry(days_off=7, rung=rng.randint(1, 2), volume=(), price=price(rng)),
        Revisit(rung=1, weeks=2, clear=1, settle=1, long_season=6, price=price(rng)),
        Taper(high=(), medium=(), high_of_full=(), medium_of_full=(),
              keep_bands=rng.randint(1, 3), price=price(rng)),
        Pin(choices=(Choice(week=rng.randint(1, weeks), quality="power", band=2),),
            price=price(rng)),
    ]  # fmt: skip
    return [rules[0], *(rule for rule in rules[1:] if rng.random() < 0.6)]


def solved_emphasis(season, rules):
    board = make_board(season, rules)
    price_emphasis(board, PRICES)
    found = minimise(board.model, EFFORT)
    return board, found


@pytest.mark.parametrize("part", range(4))
def test_stage_one_finds_the_cheapest_of_all_blocks_and_rungs(part):
    for number in range(50):
        rng = Random(1000 * part + number)
        weeks = rng.choice((6, 6, 7, 8))
        season = tiny_season(rng, weeks)
        rules = rung_rules(rng, weeks)

        board, found = solved_emphasis(season, rules)

        best = best_emphasis(season, rules, PRICES)
        assert found.status == ("infeasible" if best is None else "optimal"), (part, number)
        assert found.objective == best, (part, number)
        if best is not None:
            plan = board.read(found.values)
            paid = sum(b.excess * (r.price or 0) for r in rules for b in r.audit(plan, season))
            assert emphasis_value(season, PRICES, plan) + paid == best


def dose_rules(rng):
    """Return rules that speak of doses, minutes, load and sessions, some of them priced."""
    rules = [
        Progression(volume_rise=rng.choice((0, 10, 30)), allowance=rng.choice((0, 10, 25)),
                    price=price(rng)),
        LoadRamp(percent=rng.choice((0, 20)), allowance=rng.choice((0, 60)), floor=50,
                 price=price(rng)),
        Reentry(days_off=7, rung=12, volume=(50, 80), price=price(rng)),
        Deload(of_full=70, percent=60, allowance=5, sessions=0, price=price(rng)),
        Taper(high=(70, 45), medium=(60,), high_of_full=(60, 40), allowance=5, sessions=0,
              price=price(rng)),
        Exposure(gap_weeks={"sprint": 1}, usual_gap=2, price=price(rng)),
        Congestion(sessions=(3, 2, 1, 0), hard=(2, 1, 0, 0), pieces=1, price=price(rng)),
        SessionCaps(field_minutes=25, gym_minutes=30, pieces=1, price=price(rng)),
        Budget(ceilings={"contacts": Ceiling(off_season=60, pre_season=80, in_season=70)},
               price=price(rng)),
    ]  # fmt: skip
    return [rule for rule in rules if rng.random() < 0.5]


def two_pins(rng, season):
    """Return a rule that holds two doses, which leaves 4 ** 6 choices at most."""
    opened = [week.number for week in season.weeks if not week.closed]
    return Pin(
        choices=tuple(
            Choice(week=rng.choice(opened), quality=key, dose=rng.choice(["touch", "reduced"]))
            for key in season.keys
        )
    )


@pytest.mark.parametrize("part", range(4))
def test_stage_two_finds_the_cheapest_of_all_doses(part):
    for number in range(25):
        rng = Random(9000 + 1000 * part + number)
        season = short_season(rng)
        rules = [*dose_rules(rng), two_pins(rng, season)]
        starts = rng.choice(list(all_starts(season)))
        rungs = [[rng.randrange(3) for _ in starts] for _ in season.qualities]
        bands = light_plan(season, starts, rungs)
        board = make_board(season, rules)

        board.pin_blocks(bands)
        price_readiness(board, PRICES, bands)
        found = minimise(board.model, EFFORT)

        best = best_doses(season, rules, PRICES, bands)
        assert found.status == ("infeasible" if best is None else "optimal"), (part, number)
        if best is not None:
            assert found.objective == best[0], (part, number)
            plan = board.read(found.values)
            paid = sum(b.excess * (r.price or 0) for r in rules for b in r.audit(plan, season))
            assert readiness_value(season, PRICES, plan) + TENTH * paid == best[0]
        by_cuts = branch(board.model, Limits(gap=0.0, least=10_000, most=10_000))
        assert by_cuts.status == found.status, (part, number)
        assert by_cuts.objective == found.objective, (part, number)


def short_season(rng):
    """Return six weeks of which two or three are closed."""
    while True:
        season = tiny_season(rng, 6, closed=3)
        if sum(not week.closed for week in season.weeks) <= 4:
            return season
