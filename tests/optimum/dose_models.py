"""Models of doses, bands chosen, as searches get them."""

from optimiser.engine.compact import compact
from optimiser.objective import Prices, price_emphasis, price_readiness
from optimiser.solve import Settings, make_board, search_bounded, weekly


def dose_model(season, rules, settings=None):
    """Return the model of a season's doses on its best bands, and what windows may change."""
    settings = settings or Settings()
    board = make_board(season, rules)
    price_emphasis(board, Prices())
    found, _ = search_bounded(board.model, settings.effort(5.0), None, None)
    plan = board.read(found.values)
    board.pin_blocks(plan)
    price_readiness(board, Prices(), plan)
    small = compact(board.model)
    return small.model, weekly(board, small, settings)
