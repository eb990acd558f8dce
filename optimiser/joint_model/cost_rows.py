"""The season cost as the model's: linear in blocks, bands and doses together.

Where band and dose meet there is one variable for each quality, week, band and dose, tied to both:
readiness is linear in these, and they are whole as soon as bands and doses are.
"""

from optimiser.board.board import Board
from optimiser.board.model import Terms, total
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season, Week
from optimiser.joint_model.like import like_before
from optimiser.joint_model.ready_terms import ready_terms
from optimiser.response.readiness import UNITS, kernel, units
from optimiser.setup.amounts import PLACES, sessions_wanted, wanted

#: No readiness is this far from a target, but for what was done otherwise than planned.
FARTHEST = 200 * UNITS
#: One quality's work at one band in one week: the variable of each dose but none.


def price_season(board: Board, rates: Rates) -> None:
    """Make the season cost the model's."""
    board.model.cost.clear()
    board.model.offset = 0
    board.model.charge = units(rates.rule)
    _price_bands(board, rates)
    _price_blocks(board, rates)
    _price_amounts(board, rates)
    _price_sessions(board, rates)
    _price_changes(board, rates)
    _price_readiness(board, rates)


def band_miss(season: Season, rates: Rates, index: int, week: int, rung: int) -> int:
    """Return how far a rung is from the emphasis wanted, beyond tolerance, times the weight."""
    quality = season.qualities[index]
    miss = abs(quality.position(rung) - season.emphasis[index][week]) - rates.tolerance
    return round(max(0.0, miss)) * quality.weight


def _price_bands(board: Board, rates: Rates) -> None:
    season = board.season
    for (index, arc, rung, _, _), var in board.steps.items():
        off = sum(band_miss(season, rates, index, week, rung) for week in arc.weeks)
        if off:
            board.model.cost[var] = off * units(rates.band)


def _price_blocks(board: Board, rates: Rates) -> None:
    for arc, var in board.arcs.items():
        odd = abs(arc.length - rates.usual_block)
        board.model.cost[var] = units(rates.block) + odd * units(rates.odd_week)


def _price_amounts(board: Board, rates: Rates) -> None:
    season, model, aims = board.season, board.model, wanted(board.season)
    whole = sum(quality.weight for quality in season.qualities)
    for index, quality in enumerate(season.qualities):
        rate = rates.amount * (quality.weight * len(season.qualities) / whole)
        for week in board.open_weeks():
            table = [units(rate * _dose_miss(rates, dose, aims[index][week])) for dose in range(4)]
            model.offset += table[0]
            for least in (1, 2, 3):
                for var in board.at_least(index, week, least):
                    model.cost[var] = table[least] - table[least - 1]


def _dose_miss(rates: Rates, dose: int, aim: float) -> float:
    """Return the dose steps off that are paid for."""
    off = max(0.0, abs(dose - aim) - rates.slack)
    return off if off <= 1 else 1 + (1 + rates.far) * (off - 1)


def _price_sessions(board: Board, rates: Rates) -> None:
    model = board.model
    for week in board.open_weeks():
        aims = sessions_wanted(board.season, week)
        for place, aim in zip(PLACES, aims, strict=True):
            if aim:
                few = model.var(0, aim, f"few[{place},{week}]")
                model.implied.add(few)
                model.cost[few] = units(rates.session)
                model.at_least(total([board.sessions(place, week), {few: 1}]), aim)


def _price_changes(board: Board, rates: Rates) -> None:
    like = like_before(board.season)
    price = units(rates.change)
    # of a block's first week nothing follows: a start in this week or the last explains a change
    for week in [week for week in board.open_weeks() if like[week] and price]:
        fresh = {var: -1 for arc, var in board.arcs.items() if arc.start in (week, week - 1)}
        for index in range(len(board.season.qualities)):
            for least in (1, 2, 3):
                _price_change(board, index, week, least, fresh, price)


def _price_change(
    board: Board, index: int, week: int, least: int, fresh: Terms, price: int
) -> None:
    model = board.model
    (now,), (before,) = board.at_least(index, week, least), board.at_least(index, week - 1, least)
    change = model.flag(f"change[{index},{week},{least}]")
    model.implied.add(change)
    model.cost[change] = price
    model.at_most({now: 1, before: -1, change: -1, **fresh}, 0)
    model.at_most({before: 1, now: -1, change: -1, **fresh}, 0)


def _price_readiness(board: Board, rates: Rates) -> None:
    for index in range(len(board.season.qualities)):
        for open_week in board.open_weeks():
            board.work(index, open_week)  # made in this order, whichever week asks first
    tables, background = kernel(board.season).whole()
    for week in board.season.weeks:
        if not week.closed:
            terms = ready_terms(board, tables, week.index)
            _price_short(board, rates, week, terms, int(background[week.index]))


def _price_short(board: Board, rates: Rates, week: Week, ready: Terms, outside: int) -> None:
    model = board.model
    least = round(week.target * UNITS) - round(rates.below * UNITS) - outside
    if least <= sum(min(0, gain) for gain in ready.values()):
        # no choice makes it fall short
        return
    short = model.var(0, FARTHEST + max(0, -outside), f"short[{week.index}]")
    model.fine.add(short)
    model.cost[short] = rates.week(week)
    model.at_least({**ready, short: 1}, least)
