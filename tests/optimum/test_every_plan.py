"""The solver's optimum is that of trying every plan."""

from random import Random

import pytest
from bands_alone import Prices, emphasis_value, price_emphasis
from every_plan import best_emphasis
from tiny_seasons import tiny_season

from constraints.blocks import Blocks
from constraints.foundation import Foundation
from constraints.pin import Pin, Pinned
from constraints.progression import Progression
from constraints.reentry import Reentry
from constraints.revisit import Revisit
from constraints.taper import Taper
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.joint_model.solve import make_board

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
        Pin(choices=(Pinned(week=rng.randint(1, weeks), quality="power", band=2),),
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
