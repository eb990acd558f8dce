"""The batch chart: many seasons and rule sets, best first."""

from collections.abc import Sequence
from math import floor

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from cli.render.pictures.text import drawable
from cli.render.pictures.theme import PRINT, SMALL, TEXT, TITLE, Theme, drawing
from optimiser.batch.row import BatchRow

#: Inches: width of the whole, height of a line, room on the left, the right, above and below.
WIDE, LINE, LEFT, RIGHT, TOP, BOTTOM = 12.0, 0.27, 4.1, 3.0, 1.35, 0.55
#: Lines on one picture; what is beyond is counted under it.
MOST = 80
NO_PLAN = {
    "clash": "rules clash",
    "out_of_time": "no plan in time",
    "bad_file": "file cannot be used",
    "out_of_memory": "out of memory",
    "killed": "killed",
    "failed": "failed",
}
#: Shape by what is shown: told apart without colour.
LOOKS = (
    ("match", "match score", "o"),
    ("at_high", "at high", "D"),
    ("at_medium", "at medium", "^"),
)


def batch_chart(rows: Sequence[BatchRow], title: str = "Batch", *, theme: Theme = PRINT) -> Figure:
    """Return the chart of a batch: its best rows first, those without a plan last."""
    ordered = sorted(rows, key=_rank)
    shown = ordered[:MOST]
    high = TOP + BOTTOM + LINE * max(1, len(shown))
    with drawing(theme):
        figure = Figure(figsize=(WIDE, high))
        axes = figure.add_axes(
            (LEFT / WIDE, BOTTOM / high, (WIDE - LEFT - RIGHT) / WIDE, 1 - (TOP + BOTTOM) / high)
        )
        _heads(figure, theme, title, ordered, len(ordered) - len(shown))
        _scale(axes, theme, shown)
        for place, row in enumerate(shown):
            _line(axes, theme, place, row)
        _key(axes, theme)
    return figure


def _rank(row: BatchRow) -> tuple[bool, float, str, str]:
    return not row.planned, -(row.match or 0), row.season, row.rules


def _heads(figure: Figure, theme: Theme, title: str, rows: Sequence[BatchRow], left: int) -> None:
    width, height = figure.get_size_inches()
    planned = sum(row.planned for row in rows)
    words = f"{len(rows)} cases, {planned} with a plan, best match score first"
    if left:
        words += f"; {left} more are not shown"
    figure.text(0.35 / width, 1 - 0.42 / height, drawable(title, 60), fontsize=TITLE,
                fontweight="bold", va="center")  # fmt: skip
    figure.text(0.35 / width, 1 - 0.75 / height, words, fontsize=10, color=theme.soft, va="center")


def _scale(axes: Axes, theme: Theme, rows: Sequence[BatchRow]) -> None:
    """Show the part of 0-100 that is used, and at least ten points of it."""
    values = [v for row in rows for v in (row.match, row.at_high, row.at_medium) if v is not None]
    low = max(0, min(90, 5 * floor((min(values, default=90) - 1) / 5)))
    axes.set_xlim(low, 100.5)
    axes.set_ylim(max(1, len(rows)) - 0.5, -0.5)
    axes.set_yticks([])
    step = 1 if low >= 90 else 5 if low >= 50 else 10
    axes.set_xticks(range(low, 101, step))
    axes.tick_params(axis="x", labelsize=SMALL, length=0)
    axes.grid(axis="x", color=theme.grid, lw=0.6)
    axes.set_axisbelow(True)
    axes.set_xlabel(f"share of the readiness target reached, {low} to 100", fontsize=SMALL)
    for side in axes.spines.values():
        side.set_visible(False)


def _line(axes: Axes, theme: Theme, place: int, row: BatchRow) -> None:
    left, right = axes.get_xlim()
    inch = (right - left) / (WIDE - LEFT - RIGHT)
    if place % 2:
        axes.axhspan(place - 0.5, place + 0.5, color=theme.wash, zorder=-1, lw=0)
    names = f"{drawable(row.season, 34)}  \u00b7  {drawable(row.rules, 18)}"
    axes.text(left - 0.12 * inch, place, names, ha="right", va="center", fontsize=TEXT)
    axes.text(right + 0.1 * inch, place, _told(row), va="center", fontsize=TEXT, clip_on=False)
    values = [getattr(row, name) for name, _, _ in LOOKS]
    known = [value for value in values if value is not None]
    if len(known) > 1:
        axes.plot([min(known), max(known)], [place] * 2, color=theme.soft, lw=1, zorder=1)
    for value, (name, _, shape) in zip(values, LOOKS, strict=True):
        if value is not None:
            axes.plot([value], [place], shape, ms=7, mew=0.9, mec=theme.ink, zorder=3,
                      mfc=_face(theme, name))  # fmt: skip


def _face(theme: Theme, name: str) -> str:
    return {"match": theme.paper, "at_high": theme.accent, "at_medium": theme.ink}[name]


def _told(row: BatchRow) -> str:
    if not row.planned:
        return NO_PLAN.get(row.status, row.status)
    gap = "proven" if row.status == "proven" else "no bound" if row.gap is None else ""
    gap = gap or f"gap {100 * (row.gap or 0):.1f} %"
    peak = "" if row.peak_load is None else f", peak {row.peak_load} AU"
    return f"{row.match or 0:.1f}, {gap}{peak}"


def _key(axes: Axes, theme: Theme) -> None:
    left, right = axes.get_xlim()
    inch = (right - left) / (WIDE - LEFT - RIGHT)
    for place, (name, words, shape) in enumerate(LOOKS):
        x = left + 1.35 * inch * place
        axes.plot([x], [-1.0], shape, ms=7, mew=0.9, mec=theme.ink, mfc=_face(theme, name),
                  clip_on=False)  # fmt: skip
        axes.text(x + 0.1 * inch, -1.0, words, fontsize=SMALL, va="center", clip_on=False)
    axes.set_xlim(left, right)
