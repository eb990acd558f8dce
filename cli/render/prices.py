"""What rules cost, as a table, plain data and CSV."""

from collections.abc import Mapping, Sequence
from typing import Any

from cli.files.safe_cell import safe_csv
from cli.render.terminal import filled, table_text
from cli.render.words import one_line
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.explain.limits import Limit, Stop, in_the_way
from optimiser.explain.prices.price import Gain, Price
from optimiser.review.rounding import kept, kept_or_none
from optimiser.review.score import match_score
from optimiser.rule import Rule

#: Points of match score below which a gain is within what one search may miss.
NOISE = 0.05
#: Points of one match that are worth a sentence, and sentences at most.
WORTH, MOST = 0.3, 4
MARKED = "! keeps people safe: its price is no reason to drop it."
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
    season: Season,
    plan: Plan,
    rules: Sequence[Rule],
    prices: Sequence[Price],
    found: Sequence[Limit] = (),
) -> str:
    """Return what rules cost in sentences and as a table, and what the numbers are.

    Parameters
    ----------
    found
        What holds the plan back, as `plan` tells it.
    """
    score = match_score(season, plan).score
    told = "no matches" if score is None else f"match score {score:.1f}"
    stops = {each.rule: each for each in in_the_way(found)}
    shown = [price for price in prices if _told(price) or price.rule in stops]
    head = f"{one_line(season.name, 80)}: {told}."
    sentences = _sentences(rules, prices)
    parts = ["\n".join([head, *(filled(line) for line in sentences)])]
    if shown:
        parts.append(_table(shown, stops))
        parts.append(filled(_about(sum(limit.tried for limit in found))))
    parts.append(_free([price.rule for price in prices if price not in shown]))
    return "\n\n".join(part for part in parts if part)


def _told(price: Price) -> bool:
    """Tell whether a rule costs more than nothing, or may."""
    gains = [price.dropped, *([price.looser] if price.looser else [])]
    return _dear(price) or any(gain.points is None or gain.points >= NOISE for gain in gains)


def _dear(price: Price) -> bool:
    """Tell whether a rule costs one match so much that a sentence says it."""
    gain = price.dropped
    return gain.fixture is not None and gain.fixture_points >= WORTH and bool(gain.points)


def _table(shown: Sequence[Price], stops: Mapping[str, Stop]) -> str:
    columns = len(HEAD) if stops else len(HEAD) - 1
    table = table_text(
        [_table_row(price, stops.get(price.rule))[:columns] for price in shown],
        HEAD[:columns],
        lined=True,
        widths=[None, 32, None, None, 24, None][:columns],
    )
    return f"{table}\n{MARKED}" if any(price.safety for price in shown) else table


def _about(tried: int) -> str:
    about = (
        "Costs most: planned readiness that one match would gain without the rule. Season: match "
        "score gained without it, and with it one step looser. Searches are short; a gain of 0.1 "
        "may be luck, and 0 means that none was found."
    )
    if not tried:
        return about
    return (
        f"{about} In the way: of {tried} ways to do a little more in the worst weeks, those the "
        "rule stops, in brackets those that no other rule stops. A rule can stop many and cost "
        "nothing, where others stop the same ones too; and it can stop none and cost much, where "
        "it decides long before how high bands can stand."
    )


def _free(names: Sequence[str]) -> str:
    """Return the rules that cost nothing."""
    told = f"Cost nothing that was found: {', '.join(names)}."
    return filled(told) if names else ""


def _sentences(rules: Sequence[Rule], prices: Sequence[Price]) -> list[str]:
    """Return what the dearest rules cost, match by match."""
    asks = {rule.name: rule.asks for rule in rules}
    dear = [price for price in prices if _dear(price)]
    dear.sort(key=lambda price: -price.dropped.fixture_points)
    return [_sentence(price, asks[price.rule]) for price in dear[:MOST]] or [
        f"No rule costs any match more than {WORTH:.1f} points that was found."
    ]


def _sentence(price: Price, asks: str) -> str:
    gain = price.dropped
    assert gain.fixture is not None
    week, name = gain.fixture
    safe = ", which keeps people safe" if price.safety else ""
    return (
        f"{asks[:1].upper()}{asks[1:]} (rule {price.rule}{safe}) cost {one_line(name, 30)} "
        f"(week {number_of(week)}) {gain.fixture_points:.1f} points of planned readiness."
    )


def _table_row(price: Price, stop: Stop | None) -> tuple[str, ...]:
    return (
        f"{price.rule}{' !' if price.safety else ''}",
        _fixture(price.dropped),
        _points(price.dropped),
        "-" if price.looser is None else _points(price.looser),
        "" if price.looser is None else price.looser.change.step,
        f"{stop.ways} ({stop.alone})" if stop else "",
    )


def _points(gain: Gain) -> str:
    if gain.points is None:
        return "not found"
    return f"+{gain.points:.1f}" if gain.points >= NOISE else "0"


def _fixture(gain: Gain) -> str:
    if gain.fixture is None or gain.fixture_points < NOISE or not gain.points:
        return ""
    week, name = gain.fixture
    return f"{one_line(name, 22)} (week {number_of(week)}) {gain.fixture_points:.1f}"


def prices_data(season: Season, plan: Plan, prices: Sequence[Price]) -> dict[str, Any]:
    """Return the same as plain data; weeks from 1."""
    score = match_score(season, plan).score
    return {
        "format": "seasonwright.prices/1",
        "season": season.name,
        "score": kept_or_none(score),
        "rules": [_row(price) for price in prices],
    }


def prices_csv(prices: Sequence[Price]) -> str:
    """Return one row a rule."""
    return safe_csv(FIELDS, map(_row, prices))


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
