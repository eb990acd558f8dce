"""What rules cost, as a table, plain data and CSV."""

import csv
import io
from collections.abc import Sequence
from typing import Any

from tabulate import tabulate

from cli.files.safe_cell import safe_rows
from cli.render.words import one_line
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.prices.price import Gain, Price
from optimiser.rounding import kept, kept_or_none
from optimiser.score import match_score

#: Points of match score below which a gain is within what one search may miss.
NOISE = 0.05
HEAD = ("rule", "without it", "one step looser", "the step", "gains most without it")
FIELDS = (
    "rule",
    "safety",
    "dropped",
    "looser",
    "step",
    "fixture_week",
    "fixture",
    "fixture_points",
)


def prices_table(season: Season, plan: Plan, prices: Sequence[Price]) -> str:
    """Return the rules by price, and what the numbers are."""
    score = match_score(season, plan).score
    rows = [
        (
            f"{price.rule}{' !' if price.safety else ''}",
            _points(price.dropped),
            "-" if price.looser is None else _points(price.looser),
            "" if price.looser is None else price.looser.change.step,
            _fixture(price.dropped),
        )
        for price in prices
    ]
    told = "no matches" if score is None else f"match score {score:.1f}"
    return "\n".join(
        [
            f"{one_line(season.name, 80)}: {told}. Match score the season would gain:",
            tabulate(
                rows,
                HEAD,
                tablefmt="simple",
                disable_numparse=True,
                maxcolwidths=[None, None, None, 32, 30],
            ),
            "! keeps people safe: its price is no reason to drop it.",
            "Searches are short; a gain of 0.1 may be luck. 0 means no gain was found.",
        ]
    )


def _points(gain: Gain) -> str:
    if gain.points is None:
        return "not found"
    return f"+{gain.points:.1f}" if gain.points >= NOISE else "0"


def _fixture(gain: Gain) -> str:
    if gain.fixture is None or gain.fixture_points < NOISE or (gain.points or 0.0) < NOISE:
        return ""
    week, name = gain.fixture
    return f"{one_line(name, 28)} (week {week + 1}) +{gain.fixture_points:.1f}"


def prices_data(season: Season, plan: Plan, prices: Sequence[Price]) -> dict[str, Any]:
    """Return the same as plain data; weeks from 1."""
    score = match_score(season, plan).score
    return {
        "format": "seasonwright.prices/1",
        "season": season.name,
        "score": kept_or_none(score),
        "rules": [_row(price) for price in prices],
    }


def prices_csv(season: Season, prices: Sequence[Price]) -> str:
    """Return one row a rule."""
    out = io.StringIO()
    writer = csv.DictWriter(out, FIELDS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(safe_rows(map(_row, prices)))
    return out.getvalue()


def _row(price: Price) -> dict[str, Any]:
    fixture = price.dropped.fixture
    return {
        "rule": price.rule,
        "safety": price.safety,
        "dropped": _rounded(price.dropped),
        "looser": None if price.looser is None else _rounded(price.looser),
        "step": None if price.looser is None else price.looser.change.step,
        "fixture_week": None if fixture is None else fixture[0] + 1,
        "fixture": None if fixture is None else fixture[1],
        "fixture_points": kept(price.dropped.fixture_points),
    }


def _rounded(gain: Gain) -> float | None:
    return kept_or_none(gain.points)
