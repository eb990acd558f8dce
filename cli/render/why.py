"""Why a plan has what it has in one place, as text and as plain data."""

from collections.abc import Sequence
from typing import Any

from cli.render.clash import clash_data, clash_part
from cli.render.costs import points
from cli.render.terminal import filled
from cli.render.words import one_line
from optimiser.change.cells import CellChange
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Quality
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import listed, weeks_listed
from optimiser.explain.why.alternatives import Alternative, Alternatives
from optimiser.explain.why.answer import Cost, Forbidden, Possible
from optimiser.explain.why.asked import Asked
from optimiser.explain.why.at_matches import FixtureChange, telling
from optimiser.explain.why.lifted import Lifted
from optimiser.explain.why.terms import Terms
from optimiser.response.readiness import UNITS
from optimiser.review.rounding import kept

#: Rules named for one alternative at most; terms and moves listed at most.
MOST_RULES, MOST_TERMS, MOST_MOVES = 2, 6, 8
#: Share of the way to the next band within which an emphasis is said to be at one.
NEAR = 0.2
#: Change of a readiness or a score that is worth a word, in points.
WORTH = 0.05


# --- the other choices --------------------------------------------------------------------


def alternatives_text(
    season: Season,
    plan: Plan,
    quality: int,
    week: int,
    found: Alternatives,
    *,
    numbers: bool = False,
) -> str:
    """Return every other band and dose of one place, with what it means or what forbids it.

    Parameters
    ----------
    numbers
        Show the costs that the search weighs too.
    """
    spec = season.qualities[quality]
    parts = [
        _here(season, plan, quality, week, numbers=numbers),
        f"Other bands through {_span(found.block)}, all else as it is:",
        *_rows(found.bands, numbers=numbers),
        f"Other doses in week {number_of(week)}, all else as it is:",
        *_rows(found.doses, numbers=numbers),
        "",
        _pins(spec.name, found),
        filled(
            "A plan made anew around another choice may cost less, or be possible after all: ask "
            "with --band or --dose."
        ),
    ]
    return "\n".join(parts)


def past_text(season: Season, planned: Plan, done: Plan, quality: int, week: int, over: int) -> str:
    """Return what was done of a quality in a week that is over.

    Parameters
    ----------
    over
        How many weeks are.
    """
    spec, at = season.qualities[quality], season.weeks[week]
    was, stood = (_cell(spec, plan, quality, week) for plan in (done, planned))
    other = "" if was == stood else f"; planned was {stood}"
    return filled(
        f"Week {at.number} ({at.monday}, {at.phase}{_fixtures(season, week)}) is over: {spec.name} "
        f"was done at {was}{other}. What else could be is told of weeks to come, "
        f"{over + 1} and later."
    )


def _cell(spec: Quality, plan: Plan, quality: int, week: int) -> str:
    rung, dose = plan.rungs[quality][week], plan.doses[quality][week].word
    return f"dose {dose}" if rung is None else f"{spec.bands[rung].code}, dose {dose}"


def _here(season: Season, plan: Plan, quality: int, week: int, *, numbers: bool) -> str:
    spec, at = season.qualities[quality], season.weeks[week]
    rung = plan.rungs[quality][week]
    band = "no band" if rung is None else f"{spec.bands[rung].code} ({spec.bands[rung].label})"
    dose = plan.doses[quality][week].word
    wanted = season.emphasis[quality][week]
    stands = 0 if rung is None else spec.position(rung)
    exact = f" It wants {wanted:.0f} of 100; this band stands at {stands}." if numbers else ""
    return filled(
        f"Week {at.number} ({at.monday}, {at.phase}{_fixtures(season, week)}): {spec.name} is on "
        f"{band}, dose {dose}. At this distance from the matches that matter the season wants "
        f"{_wanted(spec, wanted)}.{exact}"
    )


def _wanted(spec: Quality, wanted: float) -> str:
    """Return the band or the two bands that an emphasis lies at."""
    place = wanted / 100 * (len(spec.bands) - 1)
    low = min(int(place), len(spec.bands) - 2)
    if place - low < NEAR or place - low > 1 - NEAR:
        return spec.bands[round(place)].code
    return f"something between {spec.bands[low].code} and {spec.bands[low + 1].code}"


def _fixtures(season: Season, week: int) -> str:
    told = [
        f"{fixture.priority} match {one_line(fixture.name, 30)}"
        for fixture in season.weeks[week].fixtures
    ]
    return f", {listed(told)}" if told else ""


def _span(block: range) -> str:
    return f"its block, {weeks_listed([number_of(week) for week in block])}"


def _rows(found: Sequence[Alternative], *, numbers: bool) -> list[str]:
    wide = max(len(each.choice) for each in found)
    return [
        filled(
            _verdict(each, numbers=numbers),
            f"  {'>' if each.current else ' '} {each.choice:<{wide}}  ",
            " " * (wide + 6),
        )
        for each in found
    ]


def _verdict(each: Alternative, *, numbers: bool) -> str:
    if each.current:
        return "the plan"
    if each.breaches:
        rules = list(dict.fromkeys(breach.rule for breach in each.breaches))
        first = [next(b for b in each.breaches if b.rule == rule) for rule in rules[:MOST_RULES]]
        told = "; ".join(f"{breach.rule}: {breach.words}" for breach in first)
        more = len(rules) - len(first)
        return f"forbidden by {told}" + (f"; and by {more} more" if more else "")
    if not each.cost.total:
        return "allowed, and as good"
    costs = f" [{_costs(each.cost, each.score)}]" if numbers else ""
    meant = meaning(each.cost.parts.get("bands", 0), each.matches)
    return f"allowed; {listed(meant) if meant else 'no match would notice'}{costs}"


def meaning(bands: int, matches: Sequence[FixtureChange]) -> list[str]:
    """Return what another choice means to a coach, in a few words each."""
    told = []
    if bands:
        where = "further from" if bands > 0 else "nearer to"
        told.append(f"bands {where} what the season wants")
    for change, word in zip(telling(matches), ("less", "more"), strict=True):
        if change is not None and abs(change.gain) >= WORTH:
            name = f"{one_line(change.name, 30)} (week {number_of(change.week)})"
            told.append(f"{name} {abs(change.gain):.1f} points {word} ready")
    return told


def _costs(cost: Terms, score: float) -> str:
    if not cost.total:
        return "as good"
    told = [f"season cost {points(cost.total)}{_terms(cost)}"]
    told += [f"match score {score:+.1f}"] if abs(score) >= WORTH else []
    return ", ".join(told)


def _pins(name: str, found: Alternatives) -> str:
    every = [each for each in (*found.bands, *found.doses) if not each.current]
    free = [each for each in every if not each.breaches]
    better = [each for each in free if each.cost.total < 0]
    head = f"Of {len(every)} other choices {len(every) - len(free)} are forbidden"
    if better:
        return filled(f"{head}; {len(better)} would be better than the plan as it stands.")
    return filled(
        f"{head}, and none of the others is better: that is why {name.lower()} stands so."
    )


def alternatives_data(
    season: Season, quality: int, week: int, found: Alternatives
) -> dict[str, Any]:
    """Return the same as plain data; weeks from 1."""
    return {
        "format": "seasonwright.why/1",
        "week": week,
        "quality": season.keys[quality],
        "block": [number_of(day) for day in found.block],
        "bands": [_alternative(each) for each in found.bands],
        "doses": [_alternative(each) for each in found.doses],
    }


def _alternative(each: Alternative) -> dict[str, Any]:
    return {
        "choice": each.choice,
        "current": each.current,
        "allowed": not each.breaches,
        "cost": each.cost.total,
        "score": kept(each.score),
        "breaches": [breach.model_dump() for breach in each.breaches],
    }


# --- one other choice ---------------------------------------------------------------------


def answer_text(
    season: Season,
    asked: Asked | Lifted,
    answer: Forbidden | Possible,
    *,
    numbers: bool = False,
) -> str:
    """Return the answer about one other choice."""
    says = asked.says(season)
    if isinstance(answer, Forbidden):
        return _forbidden(season, says, answer)
    if answer.equal:
        head = f"{says}: possible, and as good; pin it if you prefer it."
        return f"{filled(head)}{_moves(season, answer)}"
    body = _body(season, answer) if numbers else _meaning(season, answer)
    return "\n".join([_head(says, answer), *body])


def _meaning(season: Season, answer: Possible) -> list[str]:
    """Return what an answer means, without the numbers the search weighs."""
    told = meaning(answer.cost.terms.parts.get("bands", 0), answer.fixtures)
    said = f"{listed(told)[:1].upper()}{listed(told)[1:]}." if told else "No match notices."
    short = "" if answer.cost.proven else f" {_open(answer.cost)}"
    return [filled(f"{said} Match score {answer.score:+.1f}.{short}") + _moves(season, answer)]


def _open(cost: Cost) -> str:
    """Return how much better another plan with the choice could be."""
    spare = max(0.1, (cost.terms.total - cost.low) / UNITS)
    return f"A better plan with it could cost {spare:.1f} points less at most."


def _forbidden(season: Season, says: str, answer: Forbidden) -> str:
    if answer.season_clashes:
        told = "the rules clash even without it, so this season has no plan at all:"
        return f"{says}: {told}\n{clash_part(season, answer.clash)}"
    return f"{says}: no plan can have it.\n{clash_part(season, answer.clash)}"


def _head(says: str, answer: Possible) -> str:
    if answer.cost.terms.total < 0:
        return filled(f"{says}: possible, and better than the plan at hand, which is not the best.")
    return filled(f"{says}: possible, but it costs:")


def _body(season: Season, answer: Possible) -> list[str]:
    lines = [_cost(answer.cost)]
    told = [
        f"{one_line(f.name, 30)} (week {number_of(f.week)}) {f.before:.1f} to {f.after:.1f}, "
        f"target {f.target:.0f}"
        for f in sorted(answer.fixtures, key=lambda f: f.after - f.before)
        if abs(f.after - f.before) >= WORTH
    ]
    if told:
        lines.append(filled(f"Planned readiness at matches: {_listed(told, MOST_TERMS)}."))
    lines.append(f"Match score {answer.score:+.1f}.{_moves(season, answer)}")
    return lines


def _cost(cost: Cost) -> str:
    total = points(cost.terms.total)
    if cost.proven:
        head = f"  season cost {total}"
    else:
        head = f"  season cost {points(cost.low)} to {total} (this plan {total})"
    return filled(f"{head}{_terms(cost.terms)}", later="    ")


def _terms(terms: Terms) -> str:
    parts = sorted(terms.parts.items(), key=lambda item: -abs(item[1]))
    told = [f"{name} {points(gap)}" for name, gap in parts]
    if len(told) > MOST_TERMS:
        rest = sum(gap for _, gap in parts[MOST_TERMS - 1 :])
        told = [*told[: MOST_TERMS - 1], f"{len(parts) - MOST_TERMS + 1} others {points(rest)}"]
    return f" = {', '.join(told)}" if len(told) > 1 else f" ({told[0]})" if told else ""


def _moves(season: Season, answer: Possible) -> str:
    if not answer.moves:
        return ""
    told = [_move(season, move) for move in answer.moves]
    return "\n" + filled(f"What moves: {_listed(told, MOST_MOVES)}.")


def _move(season: Season, move: CellChange) -> str:
    quality = season.qualities[move.quality]

    def cell(rung: int | None, dose: str) -> str:
        return "nothing" if rung is None else f"{quality.bands[rung].code} {dose}"

    before = cell(move.rung_before, move.dose_before.word)
    after = cell(move.rung_after, move.dose_after.word)
    return f"week {number_of(move.week)} {quality.name.lower()} {before} to {after}"


def _listed(told: Sequence[str], most: int) -> str:
    shown = list(told[:most])
    hidden = len(told) - len(shown)
    return "; ".join(shown) + (f"; and {hidden} more" if hidden else "")


def answer_data(season: Season, asked: Asked, answer: Forbidden | Possible) -> dict[str, Any]:
    """Return the same as plain data; weeks from 1."""
    head: dict[str, Any] = {
        "format": "seasonwright.why_not/1",
        "asked": asked.says(season),
        "week": number_of(asked.week),
        "quality": asked.quality,
    }
    if isinstance(answer, Forbidden):
        told = "season_clashes" if answer.season_clashes else "forbidden"
        return head | {"answer": told, "clash": clash_data(season, answer.clash)}
    return head | {
        "answer": "equal" if answer.equal else "costs",
        "cost": _cost_data(answer.cost),
        "score": kept(answer.score),
        "fixtures": [_fixture(f.week, vars(f)) for f in answer.fixtures],
        "moves": [_move(season, move) for move in answer.moves],
    }


def _cost_data(cost: Cost) -> dict[str, Any]:
    return {
        "cost": cost.terms.total,
        "at_least": cost.low,
        "proven": cost.proven,
        "terms": dict(cost.terms.parts),
    }


def _fixture(week: int, values: dict[str, Any]) -> dict[str, Any]:
    rounded = {k: kept(v) if isinstance(v, float) else v for k, v in values.items()}
    return rounded | {"week": number_of(week)}
