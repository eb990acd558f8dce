"""A batch as text: rule sets against each other, then every season."""

from collections.abc import Sequence

from cli.render.terminal import table_text
from cli.render.words import one_line
from optimiser.batch.row import PLANNED, BatchRow
from optimiser.batch.rule_sets import COVER, Comparison

STATUS = {
    "proven": "proven",
    "within_gap": "within 1 %",
    "stopped": "stopped",
    "clash": "rules clash",
    "out_of_time": "out of time",
    "bad_file": "bad file",
    "out_of_memory": "out of memory",
    "killed": "killed",
    "failed": "failed",
}
HEADS = [
    "", "season", "rules", "match", "high", "medium", "low", "status", "gap %",
    "peak AU", "ramp %", "at caps", "deloads", "tapers", "s",
]  # fmt: skip


def batch_text(rows: Sequence[BatchRow], found: Sequence[Comparison]) -> str:
    """Return the whole report: comparison, plans by match score, then what has no plan."""
    parts = [_comparison(found), _planned(rows), _without(rows), _counted(rows)]
    return "\n\n".join(part for part in parts if part)


def batch_progress(done: int, total: int, solved: int, seconds: float) -> str:
    """Return one line of progress; the rate counts what was solved in this run."""
    told = f"{done} of {total} rows"
    if not solved or seconds <= 0:
        return told
    hourly = 3600 * solved / seconds
    return f"{told}  {hourly:.0f} an hour  {_lasting(3600 * (total - done) / hourly)} left"


def _lasting(seconds: float) -> str:
    minutes = seconds / 60
    if minutes < 2:
        return f"{seconds:.0f} s"
    return f"{minutes:.0f} min" if minutes < 120 else f"{minutes / 60:.1f} h"


def _comparison(found: Sequence[Comparison]) -> str:
    if len(found) < 2:
        return ""
    heads = ["rules", "seasons", "planned", "clash", "trouble", "median", "pairs"]
    heads += ["better", "same", "worse", "difference", f"{COVER} % interval"]
    table = [
        [
            item.rules, item.seasons, item.planned, item.clash, item.trouble or "",
            _points(item.match), item.pairs or "", *_outcomes(item),
            _points(item.difference, "+.2f"), _interval(item),
        ]
        for item in found
    ]  # fmt: skip
    text = table_text(table, heads, lined=True, sides=_sides(heads))
    return (
        "Rule sets, best first: match score season by season against the rules as written "
        f"(median difference in points).\n{text}"
    )


def _outcomes(item: Comparison) -> list[str]:
    if not item.pairs:
        return ["", "", ""]
    return [str(item.wins), str(item.draws), str(item.losses)]


def _interval(item: Comparison) -> str:
    if item.low is None or item.high is None:
        return ""
    return f"{item.low:+.2f} to {item.high:+.2f}"


def _planned(rows: Sequence[BatchRow]) -> str:
    held = sorted(
        (row for row in rows if row.planned),
        key=lambda row: (-(row.match or 0), row.season, row.rules),
    )
    if not held:
        return ""
    table = [
        [
            place, one_line(row.season, 40), one_line(row.rules, 24), _points(row.match),
            _points(row.at_high), _points(row.at_medium), _points(row.at_low),
            STATUS[row.status], _points(None if row.gap is None else 100 * row.gap, ".2f"),
            row.peak_load, _points(row.largest_ramp, ".0f"), row.weeks_at_caps, row.deloads,
            row.tapers, f"{row.seconds:.1f}",
        ]
        for place, row in enumerate(held, 1)
    ]  # fmt: skip
    text = table_text(table, HEADS, lined=True, sides=_sides(HEADS))
    return f"Plans, best match score first.\n{text}"


def _without(rows: Sequence[BatchRow]) -> str:
    held = sorted((row for row in rows if not row.planned), key=lambda row: (row.season, row.rules))
    if not held:
        return ""
    table = [
        [
            one_line(row.season, 40), one_line(row.rules, 24), STATUS[row.status],
            one_line(row.why_not, 400),
        ]
        for row in held
    ]  # fmt: skip
    text = table_text(
        table, ["season", "rules", "status", "why"], lined=True, widths=[None, None, None, 72]
    )
    return f"Without a plan.\n{text}"


def _counted(rows: Sequence[BatchRow]) -> str:
    counts = {status: sum(row.status == status for row in rows) for status in STATUS}
    told = ", ".join(f"{count} {STATUS[status]}" for status, count in counts.items() if count)
    solves = len({row.key or id(row) for row in rows})
    planned = sum(counts[status] for status in PLANNED)
    return f"{len(rows)} rows of {solves} solves, {planned} with a plan: {told}."


def _points(value: float | None, form: str = ".1f") -> str:
    return "" if value is None else format(value, form)


def _sides(heads: Sequence[str]) -> list[str]:
    words = {"season", "rules", "status"}
    return ["left" if head in words else "right" for head in heads]
