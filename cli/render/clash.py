"""A clash and its repairs, as text and as plain data."""

from collections.abc import Sequence
from itertools import zip_longest
from typing import Any

from cli.render.calendar_facts import calendar_facts
from cli.render.clash_sums import sums
from cli.render.demand_words import demand_said
from cli.render.grouping import MOST, GroupedLine, Said, grouped
from cli.render.terminal import filled
from cli.render.words import capital, one_line
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.explain.clash import Clash, Finding
from optimiser.explain.demand import Demand
from optimiser.explain.mend import waiver_of
from optimiser.explain.repair import Give, Repair

SAFE = "!"
SAFE_NOTE = f"{SAFE} keeps people safe: give it up last, and only with a reason."


def clash_text(season: Season, finding: Finding, *, whole: bool = False) -> str:
    """Return the clash in at most seven lines, what is given, and how many others there are.

    Parameters
    ----------
    whole
        Show every demand, and every clash that was found.
    """
    name = one_line(season.name, 80)
    shown = finding.clashes if whole else finding.clashes[:1]
    parts = [f"{name}: no plan keeps all the rules."]
    parts += [clash_part(season, clash, whole=whole) for clash in shown]
    parts.append(_others(finding, len(shown)))
    return "\n\n".join(part for part in parts if part)


def clash_part(season: Season, clash: Clash, *, whole: bool = False) -> str:
    """Return one clash in at most seven lines, with its sum and what the calendar gives."""
    lines = _clash_lines(clash, None if whole else MOST)
    below = [*sums(season, clash), calendar_facts(season, clash)]
    if any(line.safety for line in lines):
        below.append(SAFE_NOTE)
    return "\n".join([_head(clash), _table(lines), *(filled(text) for text in below if text)])


def _clash_lines(clash: Clash, most: int | None) -> list[GroupedLine]:
    return grouped(demand_said(clash.demands, clash.alone), most)


def _head(clash: Clash) -> str:
    if clash.minimal and len(clash.demands) == 1:
        return "This cannot be kept in this season:"
    if clash.minimal:
        return "These clash. Each is needed for it: without any one of them the rest can be kept."
    return "These clash; sufficient, not proven smallest (time ran out):"


def _table(lines: Sequence[GroupedLine]) -> str:
    wide = max(len(line.rule) for line in lines)
    return "\n".join(
        filled(
            capital(line.text),
            f"  {line.rule:<{wide}} {SAFE if line.safety else ' '} ",
            " " * (wide + 5),
        )
        for line in lines
    )


def _others(finding: Finding, shown: int) -> str:
    found = len(finding.clashes)
    if found > shown or finding.more:
        least = f"At least {found} independent clash{'' if found == 1 else 'es'}"
        told = f"{least}; {shown} shown." if found > shown else f"{least}; there may be more."
        return told if found > 1 else ""
    return "" if found == 1 else f"{found} clashes, independent of each other."


def repairs_text(repairs: Sequence[Repair], *, whole: bool = False) -> str:
    """Return the repairs, numbered, each in a few lines."""
    if not repairs:
        return "No repair was found in the time given; --seconds gives more."
    one = "The cheapest repair; with it a plan was found that keeps everything else:"
    many = f"The {len(repairs)} cheapest repairs; with each a plan was found that keeps all else:"
    lines = [one if len(repairs) == 1 else many]
    for number, repair in enumerate(repairs, 1):
        lines += _repair(number, repair, None if whole else MOST)
    if not all(repair.cheapest for repair in repairs):
        lines.append("A cheaper one may exist: the search was ended before that was settled.")
    return "\n".join(lines)


def _repair(number: int, repair: Repair, most: int | None) -> list[str]:
    lines = grouped(_eased(repair), most)
    texts = [f"{SAFE if line.safety else ' '} {capital(line.text)}." for line in lines]
    return [
        filled(text, f"  {number if at == 0 else ' '} ", " " * 6) for at, text in enumerate(texts)
    ]


def repair_words(repair: Repair) -> list[str]:
    """Return what a repair does, one line a change."""
    return [f"{capital(line.text)}." for line in grouped(_eased(repair), None)]


def _eased(repair: Repair) -> list[Said]:
    return [Said(give.demand.rule, give.says, give.demand.safety) for give in repair.gives]


def explain_data(season: Season, finding: Finding, repairs: Sequence[Repair]) -> dict[str, Any]:
    """Return everything that was found as plain data, with the record of the questions asked."""
    return {
        "format": "seasonwright.explain/1",
        "season": season.name,
        "verdict": finding.verdict,
        "clashes": [clash_data(season, clash) for clash in finding.clashes],
        "more_clashes": finding.more,
        "repairs": [_repair_data(repair) for repair in repairs],
        "calls": [vars(call) for call in finding.calls],
    }


def clash_data(season: Season, clash: Clash) -> dict[str, Any]:
    """Return one clash as plain data."""
    return {
        "minimal": clash.minimal,
        "confirmed": clash.confirmed,
        "lines": [capital(line.text) for line in _clash_lines(clash, MOST)],
        "sums": sums(season, clash),
        "given": calendar_facts(season, clash),
        "demands": [
            {**_place(demand), "says": _says(demand), "alone": by}
            for demand, by in zip_longest(clash.demands, clash.alone)
        ],
    }


def _says(demand: Demand) -> list[str]:
    return list(dict.fromkeys(str(tag.says) for tag in demand.tags))


def _place(demand: Demand) -> dict[str, Any]:
    week = demand.key.week
    return {
        "rule": demand.rule,
        "week": None if week is None else number_of(week),
        "quality": demand.key.quality,
        "part": demand.key.part,
        "safety": demand.safety,
    }


def _repair_data(repair: Repair) -> dict[str, Any]:
    return {
        "cost": repair.cost,
        "cheapest": repair.cheapest,
        "safety": repair.safety,
        "words": repair_words(repair),
        "gives": [_give_data(give) for give in repair.gives],
    }


def _give_data(give: Give) -> dict[str, Any]:
    waiver = waiver_of(give.demand, give.by).model_dump(exclude_none=True)
    return {**_place(give.demand), "by": give.by, "unit": give.demand.unit, "waive": waiver}
