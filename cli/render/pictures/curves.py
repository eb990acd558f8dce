"""Panels with a scale: readiness against its target, and load against its limit."""

from collections.abc import Sequence
from typing import Any

from matplotlib.axes import Axes

from cli.render.pictures.chart_frame import ChartFrame
from cli.render.pictures.lanes import draw_fixture
from cli.render.pictures.theme import SMALL, TEXT, Theme
from optimiser.domain.document import WeekPart
from optimiser.domain.fixture import Priority

LINE = 0.8
#: Inches between a panel and its name, room for the numbers of a scale.
GAP = 0.46


def readiness_panel(frame: ChartFrame, axes: Axes) -> None:
    """Draw target and readiness by week; hatched where readiness falls short of the target."""
    theme = frame.theme
    axes.set_ylim(0, 104)
    scale(axes, theme, range(0, 101, 20))
    x = [column + 0.5 for column in range(len(frame.weeks))]
    ready = [week.readiness for week in frame.weeks]
    _target(frame, axes)
    axes.plot(x, ready, color=theme.ink, lw=2.2, zorder=4, solid_joinstyle="round")
    _shortfall(frame, axes)
    _planned_line(frame, axes)
    for column, week in enumerate(frame.weeks):
        great = [f.priority for f in week.fixtures if f.priority is not Priority.LOW]
        if great:
            priority = next(each for each in Priority if each in great)
            draw_fixture(axes, column + 0.5, week.readiness, priority, theme)
            axes.text(
                column + 0.5, week.readiness - 9, f"{week.readiness:.0f}", ha="center", va="top",
                fontsize=TEXT, fontweight="bold", zorder=6,
                bbox={"fc": theme.paper, "ec": "none", "pad": 0.8},
            )  # fmt: skip
    _ends(frame, axes)
    frame.name(axes, "Planned\nreadiness", "0 to 100, hatched\nbelow its target", gap=GAP)


def _planned_line(frame: ChartFrame, axes: Axes) -> None:
    """Dot the readiness that was planned over the weeks that are over, and mark today."""
    past = [week for week in frame.weeks if week.done is not None]
    planned = [week.done.planned_readiness for week in past if week.done is not None]
    if not past:
        return
    x = [column + 0.5 for column, week in enumerate(frame.weeks) if week.done is not None]
    axes.plot(x, planned, color=frame.theme.ink, lw=1.4, ls=":", zorder=4)
    _today(frame, axes)
    axes.text(x[-1] + 0.6, 100, "today: dotted as planned", fontsize=SMALL, va="center")


def _today(frame: ChartFrame, axes: Axes) -> None:
    """Draw the border between what is over and what is to come."""
    over = [column for column, week in enumerate(frame.weeks) if week.done is not None]
    if over and over[-1] + 1 < len(frame.weeks):
        axes.axvline(over[-1] + 1, color=frame.theme.ink, lw=1.2, ls="--", zorder=5)


def _target(frame: ChartFrame, axes: Axes) -> None:
    for column, week in enumerate(frame.weeks):
        if week.block is None:
            continue
        axes.plot(
            [column, column + 1], [week.target] * 2, color=frame.theme.accent, lw=2.0,
            solid_capstyle="butt", zorder=3, alpha=0.85,
        )  # fmt: skip


def _shortfall(frame: ChartFrame, axes: Axes) -> None:
    """Hatch what a week lacks of its target, as a bar as wide as the week."""
    for column, week in enumerate(frame.weeks):
        lack = week.target - week.readiness
        if week.block is not None and lack > 0.5:
            axes.bar(
                column + 0.5, lack, width=1, bottom=week.readiness, fc="none", hatch="/////",
                ec=frame.theme.accent, lw=0, zorder=2,
            )  # fmt: skip


def _ends(frame: ChartFrame, axes: Axes) -> None:
    """Name both lines where they end, apart from each other."""
    opened = [week for week in frame.weeks if week.block is not None]
    ready, target = frame.weeks[-1].readiness, (opened or frame.weeks)[-1].target
    lift = max(0.0, 9 - abs(ready - target)) / 2
    up = 1 if ready >= target else -1
    at = len(frame.weeks) + 0.1 / frame.wide
    for words, y, colour in (
        ("planned", ready + up * lift, frame.theme.ink),
        ("target", target - up * lift, frame.theme.accent),
    ):
        axes.text(at, y, words, fontsize=SMALL + 0.5, color=colour, va="center", clip_on=False)


def scale(axes: Axes, theme: Theme, ticks: Sequence[int] | range) -> None:
    """Draw the lines of a scale and their numbers, inside the panel's left edge."""
    for tick in ticks:
        axes.axhline(tick, color=theme.grid, lw=0.6, zorder=0)
    axes.set_yticks(list(ticks))
    axes.tick_params(axis="y", length=0, labelsize=SMALL, pad=2)


def load_panel(frame: ChartFrame, axes: Axes, limits: Sequence[int | None]) -> None:
    """Draw each week's load in its three parts, and its weekly rise limit."""
    theme = frame.theme
    loads = [week.load.total for week in frame.weeks]
    loads += [week.done.planned_load for week in frame.weeks if week.done is not None]
    most = max([*loads, *(each or 0 for each in limits), 1])
    axes.set_ylim(0, 1.04 * most)
    scale(axes, theme, ticks(most))
    for column, week in enumerate(frame.weeks):
        _bars(axes, theme, column, week)
        if week.done is not None:
            axes.bar(
                column + 0.5, week.done.planned_load, width=0.9, fc="none", ec=theme.ink, lw=1.2,
                ls=":", zorder=3,
            )  # fmt: skip
        limit = limits[column]
        if limit is not None:
            axes.plot(
                [column + 0.06, column + 0.94], [limit] * 2, color=theme.accent, lw=1.6,
                solid_capstyle="butt", zorder=4,
            )  # fmt: skip
    _today(frame, axes)
    past = any(week.done is not None for week in frame.weeks)
    frame.name(axes, "Load", "AU a week, dotted\nas planned" if past else "AU a week", gap=GAP)
    _key(frame, axes, limited=any(each is not None for each in limits))


def ticks(most: int) -> range:
    """Return three or four round steps up to ``most``."""
    steps = (size * 10**power for power in range(8) for size in (1, 2, 5))
    return range(0, most + 1, next(step for step in steps if most <= 4 * step))


def _bars(axes: Axes, theme: Theme, column: int, week: WeekPart) -> None:
    bottom = 0
    for part, style in zip(
        (week.load.matches, week.load.practice, week.load.training), _styles(theme), strict=True
    ):
        if part:
            axes.bar(column + 0.5, part, width=0.76, bottom=bottom, lw=LINE, zorder=2, **style)
        bottom += part


def _styles(theme: Theme) -> list[dict[str, Any]]:
    """Return the looks of matches, practice and own training: dark, hatched, plain."""
    return [
        {"fc": theme.soft, "ec": theme.ink},
        {"fc": theme.wash, "ec": theme.soft, "hatch": "\\\\\\\\"},
        {"fc": theme.paper, "ec": theme.ink},
    ]


def _key(frame: ChartFrame, axes: Axes, *, limited: bool) -> None:
    """Explain the bars on the right, in the order in which they are stacked."""
    theme, inch = frame.theme, 1 / frame.wide
    high = axes.get_ylim()[1]
    left = len(frame.weeks) + 0.1 * inch
    words = [("matches", 0), ("practice", 1), ("training", 2)]
    for place, (name, style) in enumerate(words):
        y = high * (0.14 + 0.2 * place)
        axes.bar(
            left + 0.05 * inch, 0.1 * high, width=0.1 * inch, bottom=y - 0.05 * high,
            clip_on=False, lw=LINE, **_styles(theme)[style],
        )  # fmt: skip
        axes.text(left + 0.15 * inch, y, name, fontsize=SMALL, va="center", clip_on=False)
    if limited:
        y = 0.8 * high
        axes.plot([left, left + 0.1 * inch], [y, y], color=theme.accent, lw=1.6, clip_on=False)
        axes.text(
            left + 0.15 * inch, y, "weekly\nrise\nlimit", fontsize=SMALL, va="center",
            color=theme.accent, clip_on=False,
        )  # fmt: skip
    axes.set_xlim(0, len(frame.weeks))
