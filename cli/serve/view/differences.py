"""What is different from the season on file: in a sentence, at the matches, and by week."""

from collections.abc import Sequence
from itertools import pairwise
from math import inf
from typing import Any

from cli.files.changes_file import ChangedSeason
from cli.render.cell_words import cell_words, sessions_before_after
from cli.render.clean_text import clean
from cli.render.least_told import least_told
from cli.render.proof import untold
from cli.render.rule_words import rule_title
from cli.render.signs import MATCH_SIGNS
from cli.serve.session import Session
from cli.serve.side import SeasonSide
from optimiser.change.ask import telling_weeks
from optimiser.change.binding import Binding, bindings
from optimiser.change.side_by_side import At, Difference, FixtureRow, Pair, WeekRow, compare
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of

#: Least difference that is worth a sign, in points; rules named at most.
SAME, MOST = 0.05, 2


def difference_state(session: Session) -> dict[str, Any]:
    """Return the difference; empty where there is none, or no plan yet."""
    base, here, changed = session.base, session.here, session.changed
    if base.plan is None or here.plan is None or here is base:
        return {"peaks": [], "changes": [], "headline": ""}
    pairs = changed.pairs if changed else tuple((f, f) for f in here.season.fixtures)
    found = compare((base.season, base.plan), (here.season, here.plan), pairs)
    peaks = [_peak(base, here, row) for row in found.fixtures]
    return {
        "peaks": peaks,
        "changes": [week_change(here.season, row) for row in found.weeks],
        "headline": _headline(found, peaks, _binding(base, here, found, pairs)),
    }


def step_sentences(session: Session) -> dict[int, str]:
    """Return what changes did, each after those before it, by their numbers.

    Changes made together, or one after the other before a plan was found, share the sentence of
    the last of them.
    """
    planned = session.planned_steps()
    if session.base.plan is None:
        return {}
    return {
        session.steps.now[count - 1].number: _step((before, earlier), (after, later))
        for (_, before, earlier), (count, after, later) in pairwise(planned)
    }


def _step(
    was: tuple[SeasonSide, ChangedSeason | None], now: tuple[SeasonSide, ChangedSeason | None]
) -> str:
    before, after = was[0], now[0]
    assert before.plan is not None
    assert after.plan is not None
    key = f"did since {before.loaded.digest}"
    if key not in after.said:
        pairs = _pairs(was[1], now[1])
        found = compare((before.season, before.plan), (after.season, after.plan), pairs)
        peaks = [_peak(before, after, row) for row in found.fixtures]
        binding = _binding(before, after, found, pairs)
        after.said[key] = _headline(found, peaks, binding)
    return after.said[key]


def _pairs(was: ChangedSeason | None, now: ChangedSeason | None) -> tuple[Pair, ...]:
    """Return each match as it was after the changes before and as it is."""
    assert now is not None
    earlier = dict(was.pairs) if was else {}
    there = {then for _, then in was.pairs} if was else set()
    return tuple(
        (earlier.get(first, first) if first else (here if here in there else None), here)
        for first, here in now.pairs
    )


def week_change(season: Season, row: WeekRow) -> dict[str, Any]:
    """Return what changes in a week, in a few words each."""
    week = season.weeks[row.week]
    parts = [cell_words(season, change) for change in row.cells]
    if row.sessions_before != row.sessions_after:
        before, after = (f"{field} field {gym} gym" for field, gym in sessions_before_after(row))
        parts.append(f"sessions {before} -> {after}")
    if week.closed:
        parts = ["closed, no training"]
    return {
        "week": week.number,
        "monday": week.monday.isoformat(),
        "parts": [clean(part).replace(" -> ", " \u2192 ") for part in parts],
    }


def _peak(base: SeasonSide, here: SeasonSide, row: FixtureRow) -> dict[str, Any]:
    fixture = row.now or row.was
    assert fixture is not None
    told = abs(_moved(row)) >= max(SAME, _least(base, here, row))
    return {
        "name": clean(fixture.name),
        "date": fixture.date.isoformat(),
        "priority": fixture.priority.value,
        "sign": MATCH_SIGNS[fixture.priority],
        "was": _at(row.before),
        "now": _at(row.after),
        # a difference the two searches cannot tell from none is not told
        "by": _by(row) if told else None,
        "gone": row.now is None,
    }


def _at(found: At | None) -> dict[str, float] | None:
    if found is None:
        return None
    return {"ready": round(found.readiness, 1), "target": round(found.target, 1)}


def _by(row: FixtureRow) -> float | None:
    if row.before is None or row.after is None:
        return None
    return round(round(row.after.readiness, 1) - round(row.before.readiness, 1), 1)


def _moved(row: FixtureRow) -> float:
    """Return how much closer to its target a match is met, in per cent of it."""
    return 0.0 if row.before is None or row.after is None else row.after.score - row.before.score


def _least(base: SeasonSide, here: SeasonSide, row: FixtureRow) -> float:
    spare = untold(base.proven, here.proven)
    if here.provisional and spare is None:
        return inf
    return least_told(spare, here.loaded.scenario.rates, row)


def _binding(base: SeasonSide, here: SeasonSide, found: Difference, pairs: Sequence[Pair]) -> str:
    """Return which rules hold more work back than before, once the search has ended."""
    assert base.plan is not None
    assert here.plan is not None
    if here.provisional:
        return ""
    key = f"binding since {base.loaded.digest}"
    if key not in here.said:
        weeks = telling_weeks(here.season, found, pairs)
        before = (base.season, base.plan, base.rules)
        looked = bindings(before, (here.season, here.plan, here.rules), weeks)
        here.said[key] = ", ".join(map(_bound, looked.now[:MOST]))
    return here.said[key]


def _bound(item: Binding) -> str:
    weeks = [str(number_of(week)) for week, _ in item.weeks]
    return f"{rule_title(item.rule)} (week{'' if len(weeks) == 1 else 's'} {', '.join(weeks)})"


def _headline(found: Difference, peaks: list[dict[str, Any]], binding: str) -> str:
    """Return the difference in a sentence: the match that changes most, what holds more back."""
    told = [
        (row, peak)
        for row, peak in zip(found.fixtures, peaks, strict=True)
        if peak["by"] is not None
    ]
    weeks = len(found.weeks)
    where = (
        "no week changes"
        if not weeks
        else "1 week changes"
        if weeks == 1
        else f"{weeks} weeks change"
    )
    if not told:
        return f"No match that matters changes by more than the searches can tell; {where}."
    _, worst = max(told, key=lambda pair: abs(_moved(pair[0])))
    more = len(told) - 1
    also = "" if not more else f", and {more} other match{'' if more == 1 else 'es'} too"
    held = f"; more work is now held back by {binding}" if binding else ""
    return f"{worst['name']}: {_planned(worst)}{also}{held}; {where}."


def _planned(peak: dict[str, Any]) -> str:
    """Return ``planned 94.7 to 92.1 of 95``, or both targets where they differ."""
    was, now = peak["was"], peak["now"]
    told = f"planned {was['ready']} \u2192 {now['ready']}"
    if was["target"] == now["target"]:
        return f"{told} of {now['target']:g}"
    return f"{told}, target {was['target']:g} \u2192 {now['target']:g}"
