"""What rules cost, as a table, plain data and CSV."""

import csv
import io
import textwrap
from collections import Counter
from collections.abc import Sequence
from typing import Any

from tabulate import tabulate

from cli.files.safe_cell import safe_rows
from cli.render.words import one_line
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.explain.limits import Limit
from optimiser.explain.prices.price import Gain, Price
from optimiser.review.rounding import kept, kept_or_none
from optimiser.review.score import match_score

#: Points of match score below which a gain is within what one search may miss.
NOISE = 0.05
#: Points of one match that are worth a sentence, and sentences at most.
WORTH, MOST = 0.3, 4
WIDTH = 100
HEAD = ("rule", "costs most", "season", "one step looser", "the step", "in the way")
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


def prices_table(
    season: Season, plan: Plan, prices: Sequence[Price], found: Sequence[Limit] = ()
) -> str:
    """Return what rules cost in sentences and as a table, and what the numbers are.

    Parameters
    ----------
    found
        What holds the plan back, as `plan` tells it.
    """
    score = match_score(season, plan).score
    stops = _stops(found)
    rows = [_table_row(price, stops) for price in prices]
    told = "no matches" if score is None else f"match score {score:.1f}"
    table = tabulate(
        rows,
        HEAD,
        tablefmt="simple",
        disable_numparse=True,
        maxcolwidths=[None, 32, None, None, 24, None],
    )
    tried = sum(limit.tried for limit in found)
    about = (
        "Costs most: planned readiness that one match would gain without the rule. Season: match "
        "score gained without it, and with it one step looser. Searches are short; a gain of 0.1 "
        "may be luck, and 0 means that none was found. In the way: of "
        f"{tried} ways to do a little more in the worst weeks, those the rule stops. A rule "
        "can stop many and cost nothing, where others stop the same ones too."
    )
    marked = "! keeps people safe: its price is no reason to drop it."
    head = f"{one_line(season.name, 80)}: {told}."
    sentences = [textwrap.fill(line, WIDTH) for line in _sentences(season, prices)]
    return "\n".join([head, *sentences, "", table, marked, textwrap.fill(about, WIDTH)])


def _sentences(season: Season, prices: Sequence[Price]) -> list[str]:
    """Return what the dearest rules cost, match by match."""
    told = []
    for price in prices:
        gain = price.dropped
        if gain.fixture is not None and gain.fixture_points >= WORTH and gain.points:
            week, name = gain.fixture
            told.append(
                f"{price.rule}{' (safety)' if price.safety else ''} costs {one_line(name, 30)} "
                f"(week {week + 1}) "
                f"{gain.fixture_points:.1f} points of planned readiness."
            )
    return told[:MOST] or ["No rule costs any match a point that was found."]


def _stops(found: Sequence[Limit]) -> Counter[str]:
    counted: Counter[str] = Counter()
    for limit in found:
        counted.update(dict(limit.stopped_by))
    return counted


def _table_row(price: Price, stops: Counter[str]) -> tuple[str, ...]:
    return (
        f"{price.rule}{' !' if price.safety else ''}",
        _fixture(price.dropped),
        _points(price.dropped),
        "-" if price.looser is None else _points(price.looser),
        "" if price.looser is None else price.looser.change.step,
        str(stops[price.rule] or ""),
    )


def _points(gain: Gain) -> str:
    if gain.points is None:
        return "not found"
    return f"+{gain.points:.1f}" if gain.points >= NOISE else "0"


def _fixture(gain: Gain) -> str:
    if gain.fixture is None or gain.fixture_points < NOISE or not gain.points:
        return ""
    week, name = gain.fixture
    return f"{one_line(name, 22)} (week {week + 1}) {gain.fixture_points:.1f}"


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
