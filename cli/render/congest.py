"""What drawn futures come to, as text and as plain data."""

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from cli.files.scenario_file import Loaded
from cli.render.sweep import open_from
from cli.render.terminal import table_text
from cli.render.words import one_digit, one_line
from optimiser.change.congest import Draw
from optimiser.change.congest_report import CongestionReport, HighFixture, Hurt, Quantiles
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.review.rounding import kept


def congest_text(season: Season, draw: Draw, told: CongestionReport, first: int = 0) -> str:
    """Return the spread of scores, the share of clashes, and what hurts most.

    Parameters
    ----------
    first
        First week (from 0) that is open, in a season in progress.
    """
    parts = [_head(season, draw, told), *open_from(season, first), _scores(told)]
    parts += [_hurts("Cup rounds (match score with the round less without):", told.rounds)]
    parts += [_hurts("Matches put off that hurt most:", told.put_off), _weeks(season, told)]
    return "\n\n".join(part for part in parts if part)


def _head(season: Season, draw: Draw, told: CongestionReport) -> str:
    lines = [
        f"{one_line(season.name, 80)}: {told.futures} drawn futures, {told.distinct} different",
        f"{len(draw.rounds)} cup rounds, each got through with a chance of {draw.through:.0%}; "
        f"each match put off with a chance of {draw.postpone:.0%}; seed {draw.seed}.",
        f"No plan keeps all rules (proven): {_share(told.clashes, told.futures)}.",
    ]
    if told.unknown:
        share = _share(told.unknown, told.futures)
        lines.append(f"Not planned in time, which proves nothing: {share}.")
    return "\n".join(lines)


def _share(count: int, of: int) -> str:
    return f"{count} of {of} futures ({100 * count / of:.0f} %)"


def _scores(told: CongestionReport) -> str:
    heads = ["Match score", "as it stands", "worst", "5 %", "half", "95 %", "not played"]
    rows = [["whole season", one_digit(told.base), *_spread(told.match), ""]]
    rows += [_fixture_row(item) for item in told.fixtures]
    if not told.fixtures:
        rows.append(["no high fixture: nothing is peaked for", *[""] * 6])
    return table_text(rows, heads)


def _fixture_row(item: HighFixture) -> list[str]:
    name = f"{item.fixture.date} {one_line(item.fixture.name, 30)}"
    missed = str(item.not_played) if item.not_played else ""
    return [name, one_digit(item.base), *_spread(item.spread), missed]


def _spread(found: Quantiles | None) -> list[str]:
    if found is None:
        return ["-"] * 4
    return [one_digit(value) for value in (found.least, found.low, found.middle, found.high)]


def _hurts(head: str, found: Sequence[Hurt]) -> str:
    if not found:
        return ""
    rows = [
        [
            one_line(hurt.what, 50),
            f"{hurt.count} futures",
            "too few to tell" if hurt.points is None else f"{hurt.points:+.1f} points",
            f"{hurt.clashes} clash" if hurt.clashes else "",
        ]
        for hurt in found
    ]
    table = table_text(rows)
    return "\n".join([head, *(f"  {line}".rstrip() for line in table.splitlines())])


def _weeks(season: Season, told: CongestionReport) -> str:
    if not told.weeks:
        return ""
    lines = ["Weeks that lose most readiness, on average over the futures:"]
    for item in told.weeks:
        week = season.weeks[item.week]
        busy = f", busier in {item.busier} futures" if item.busier else ""
        lines.append(f"  week {week.number} ({week.monday}): {item.lost:.1f} points{busy}")
    return "\n".join(lines)


def congest_data(loaded: Loaded, draw: Draw, told: CongestionReport) -> dict[str, Any]:
    """Return the same as plain data."""
    data = asdict(told)
    data["fixtures"] = [
        {
            "date": item.fixture.date.isoformat(),
            "opponent": item.fixture.opponent,
            "base": item.base,
            "spread": None if item.spread is None else asdict(item.spread),
            "not_played": item.not_played,
        }
        for item in told.fixtures
    ]
    data["weeks"] = [{**asdict(item), "week": number_of(item.week)} for item in told.weeks]
    return {
        "format": "seasonwright.congest/1",
        "scenario": {"name": loaded.season.name, "digest": loaded.digest},
        "draw": {
            "through": draw.through,
            "postpone": draw.postpone,
            "seed": draw.seed,
            "rounds": [fixture.date.isoformat() for fixture in draw.rounds],
        },
        **_rounded(data),
    }


def _rounded(value: Any) -> Any:
    if isinstance(value, float):
        return kept(value)
    if isinstance(value, dict):
        return {key: _rounded(part) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [_rounded(part) for part in value]
    return value
