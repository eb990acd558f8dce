"""A trade-off of plans, as text for the staff and as plain data."""

import string
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from cli.render.breaches import breach_line
from cli.render.cell_words import changed_week_words, week_data
from cli.render.given_up import conceded_text
from cli.render.proof import proof
from cli.render.terminal import bullet, filled, table_text
from cli.render.words import one_digit, one_line
from optimiser.change.side_by_side import WeekRow, week_rows
from optimiser.change.trade import TradeOff, WayOn
from optimiser.domain.breach import Breach
from optimiser.domain.document import ConcessionPart, SeasonPart
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import counted, listed
from optimiser.review.describe import breach_part, season_part
from optimiser.review.rounding import kept, kept_or_none
from optimiser.review.score import match_score, readiness, training_load

NEAREST = "No plan from here on keeps all the rules. These are the nearest ones; they give up:"
MOST_BREACHES, MOST_PEAKS = 6, 3
#: Points of score or readiness that are worth a word.
WORTH = 0.1


@dataclass(frozen=True)
class TradeAsked:
    """What a trade-off was asked of.

    Parameters
    ----------
    old
        The plan that changes are counted from.
    past
        The same with what was done in the weeks that are over.
    weeks
        How many are over.
    broken
        Breaches of the old plan from then on, after changes.
    concessions
        What all the plans give up, where the rules clash.
    """

    season: Season
    old: Plan
    past: Plan
    weeks: int
    broken: tuple[Breach, ...]
    concessions: tuple[ConcessionPart, ...] = ()


def letters(trade: TradeOff) -> dict[str, WayOn]:
    """Return the plans by letter, from the least change to the best."""
    return dict(zip(string.ascii_uppercase, trade.choices, strict=False))


def replan_text(asked: TradeAsked, trade: TradeOff) -> str:
    """Return the trade-off, and for each plan what changes, in words."""
    given_up = conceded_text(asked.concessions)
    parts = [_head(asked), given_up, _stands(asked), _needed(asked, trade), _table(asked, trade)]
    parts += [_proven(trade)]
    parts += [_changes(asked, letter, choice) for letter, choice in letters(trade).items()]
    return "\n\n".join(part for part in parts if part)


def _head(asked: TradeAsked) -> str:
    week = asked.season.weeks[asked.weeks]
    name = one_line(asked.season.name, 80)
    lines = [f"{name}: planned on from week {week.number} ({week.monday})"]
    done = week_rows(asked.old, asked.past)
    missed = [row for row in done if row.week < asked.weeks]
    if missed:
        lines.append("Done otherwise than planned:")
        lines += [bullet(changed_week_words(asked.season, row)) for row in missed]
    return "\n".join(lines)


def _stands(asked: TradeAsked) -> str:
    if not asked.broken:
        return "The plan as it was still keeps every rule that can be kept."
    lines = ["From here on the plan as it was breaks:"]
    lines += [bullet(_breach(each)) for each in asked.broken[:MOST_BREACHES]]
    more = len(asked.broken) - MOST_BREACHES
    return "\n".join([*lines, *([f"- and {more} more"] if more > 0 else [])])


def _needed(asked: TradeAsked, trade: TradeOff) -> str:
    """Say so where nothing has to change, and what changing would bring at most."""
    first, best = trade.choices[0], trade.choices[-1]
    if asked.broken or first.cells or first.forced:
        return ""
    more = (best.match or 0.0) - (first.match or 0.0)
    if more < WORTH:
        return "No change needed: no plan that was found is better at the matches to come."
    last = list(letters(trade))[-1]
    return f"No change is needed; plan {last} could bring {more:.1f} of match score."


def _breach(breach: Breach) -> str:
    return f"{breach.rule}: {breach_line(breach_part(breach))}"


def _table(asked: TradeAsked, trade: TradeOff) -> str:
    peaks = peaks_ahead(asked)
    heads = ["Plan", "", "cells changed", "weeks", "match score", "high", "medium", "load, AU"]
    heads += [f"{peak.date:%d %b}" for _, peak in peaks]
    best = readiness(asked.season, trade.choices[-1].plan)[0]
    rows = []
    for letter, choice in letters(trade).items():
        score = match_score(asked.season, choice.plan)
        weeks, ready = _rows(asked, choice), readiness(asked.season, choice.plan)[0]
        rows.append(
            [
                letter,
                kind_words(trade, choice),
                str(choice.cells),
                str(len(weeks)),
                *(one_digit(value) for value in (score.score, score.at_high, score.at_medium)),
                str(_load(asked, choice.plan)),
                *(_at_peak(ready[week], best[week]) for week, _ in peaks),
            ]
        )
    table: str = table_text(rows, heads)
    named = [f"{peak.date:%d %b} ({one_line(peak.name, 24)})" for _, peak in peaks]
    where = listed(named or [""])
    told = f"Last columns: planned readiness on {where}, and how far from the best."
    return f"{table}\n{filled(told)}" if peaks else table


def peaks_ahead(asked: TradeAsked) -> list[tuple[int, Fixture]]:
    """Return the next high fixtures with their weeks (from 0)."""
    found = [
        (week.index, fixture)
        for week in asked.season.weeks[asked.weeks :]
        for fixture in week.fixtures
        if fixture.priority.great
    ]
    return found[:MOST_PEAKS]


def _at_peak(ready: float, best: float) -> str:
    told = f"{ready:.1f}"
    return told if abs(ready - best) < WORTH else f"{told} ({ready - best:+.1f})"


def kind_words(trade: TradeOff, choice: WayOn) -> str:
    """Return what a plan on the trade-off is, in a few words."""
    top = max(each.match or 0.0 for each in trade.choices)
    if not choice.cells:
        return "as it was" if len(trade.choices) > 1 else "as it was, and best found"
    if choice is trade.choices[-1]:
        return "best found" if len(trade.choices) > 1 else "best found, least change"
    behind = top - (choice.match or 0.0)
    first = "least change, " if choice is trade.choices[0] else ""
    return f"{first}{behind:.1f} below the best"


def _load(asked: TradeAsked, plan: Plan) -> int:
    weeks = range(asked.weeks, len(asked.season.weeks))
    return sum(training_load(asked.season, plan, week) for week in weeks)


def _rows(asked: TradeAsked, choice: WayOn) -> Sequence[WeekRow]:
    return week_rows(asked.old, choice.plan, asked.weeks)


def _proven(trade: TradeOff) -> str:
    fewest = trade.choices[0].cells
    if not fewest:
        said = ""
    elif fewest <= trade.at_least:
        said = f"No legal plan changes fewer than {counted(fewest, 'cell')} (proven)."
    else:
        said = f"The fewest changes lie between {trade.at_least} (proven) and {fewest} cells."
    best = f"Search for the best: {proof(_best(trade)) or 'nothing found'}."
    text = f"A cell is one quality in one week. Load: of training, from here on. {said} {best}"
    return filled(" ".join(text.split()))


def _best(trade: TradeOff) -> SeasonPart | None:
    return None if trade.best.verdict is None else season_part(trade.best.verdict)


def _changes(asked: TradeAsked, letter: str, choice: WayOn) -> str:
    rows = _rows(asked, choice)
    head = f"Plan {letter}: what changes" if rows else f"Plan {letter}: nothing changes."
    lines = [bullet(changed_week_words(asked.season, row)) for row in rows]
    if choice.forced:
        lines.append("  What was done leaves no way to keep:")
        lines += [bullet(_breach(each)) for each in choice.forced[:MOST_BREACHES]]
    return "\n".join([head, *lines])


def replan_data(asked: TradeAsked, trade: TradeOff, digest: str) -> dict[str, Any]:
    """Return the same as plain data; weeks and rungs are counted from 1."""
    best = _best(trade)
    return {
        "format": "seasonwright.replan/1",
        "scenario": {"name": asked.season.name, "digest": digest},
        "week": asked.weeks + 1,
        "at_least": trade.at_least,
        "concessions": [each.model_dump(mode="json") for each in asked.concessions],
        "broken": [breach_part(each).model_dump(mode="json") for each in asked.broken],
        "season": None if best is None else best.model_dump(mode="json"),
        "plans": {letter: _choice_data(asked, choice) for letter, choice in letters(trade).items()},
    }


def _choice_data(asked: TradeAsked, choice: WayOn) -> dict[str, Any]:
    score = asdict(match_score(asked.season, choice.plan))
    return {
        "kind": choice.kind,
        "cells": choice.cells,
        "match": {name: kept_or_none(v) for name, v in score.items()},
        "load": _load(asked, choice.plan),
        "peaks": _peaks_data(asked, choice),
        "weeks": [week_data(asked.season, row) for row in _rows(asked, choice)],
        "forced": [breach_part(each).model_dump(mode="json") for each in choice.forced],
    }


def _peaks_data(asked: TradeAsked, choice: WayOn) -> list[dict[str, Any]]:
    ready = readiness(asked.season, choice.plan)[0]
    return [
        {"week": number_of(week), "date": str(peak.date), "readiness": kept(ready[week])}
        for week, peak in peaks_ahead(asked)
    ]
