"""The wall chart: fixtures that matter and bands by name, large enough to read from two metres."""

import datetime as dt
import textwrap
from collections.abc import Sequence
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from cli.render.pictures.chart_frame import RIGHT, ChartFrame, season_frame
from cli.render.pictures.strips import colour_of, stretches
from cli.render.pictures.text import drawable
from cli.render.pictures.theme import PRINT, Theme, drawing, text_on
from optimiser.domain.document import FixturePart, PlanDocument, QualityPart
from optimiser.domain.quality import Quality
from optimiser.domain.season import Season
from optimiser.domain.week_number import index_of

#: Points: the matches peaked for, and everything else. Inches one sign of a point takes.
GREAT, PLAIN, SIGN = 24.0, 14.0, 0.0088
#: Upper edges and heights, in inches.
PEAKS, MONTHS, BREAKS, STRIPS = (1.0, 2.2), (3.25, 0.36), (3.6, 0.3), (4.0, 6.5)
FOOT, CODES = (10.55, 0.4), (10.95, 0.62)
#: Rows of names of great matches.
ROWS = 4
#: Weeks between two names on one row.
GAP = 0.6
#: Ways to put names on rows that are followed at a time.
BEAM = 64


def wall_chart(
    document: PlanDocument,
    season: Season,
    *,
    first: int = 1,
    last: int | None = None,
    theme: Theme = PRINT,
) -> Figure:
    """Return the chart, A3 wide for up to a year.

    Parameters
    ----------
    first, last
        Weeks to show, counted from 1.
    """
    with drawing(theme):
        frame = season_frame(document.weeks[index_of(first) : last], theme)
        height = frame.figure.get_figheight()
        frame.figure.text(
            0.02, 1 - 0.55 / height, drawable(season.name, 60), fontsize=30, fontweight="bold",
            va="center",
        )  # fmt: skip
        _peaks(frame, frame.panel(*PEAKS))
        _months(frame, frame.panel(*MONTHS))
        _breaks(frame, frame.panel(*BREAKS), season)
        strips = list(frame.stacked(STRIPS, len(season.qualities)))
        for (panel, high), quality in zip(strips, season.qualities, strict=True):
            _strip(frame, panel, quality, high)
        _foot(frame, frame.panel(*FOOT))
        _unnamed(frame, frame.panel(*CODES), season, [high for _, high in strips])
    return frame.figure


def _width(words: str, size: float, frame: ChartFrame) -> float:
    """Return about how many weeks words are wide."""
    return SIGN * size * len(words) / frame.wide


# --- fixtures -------------------------------------------------------------------------------


def _peaks(frame: ChartFrame, axes: Axes) -> None:
    """Name every match of high priority in large type, each on a row where it has room."""
    axes.set_ylim(ROWS, 0)
    parts = [f for week in frame.weeks for f in week.fixtures if f.priority.great]
    names = [_name(frame, part) for part in parts]
    rows = place_names(names)
    for part, name, row in zip(parts, names, rows, strict=True):
        others = [each for each, at in zip(names, rows, strict=True) if at == row]
        brief = sum(map(name.meets, others)) > 1
        _peak(frame, axes, (name.x, name.left), row, _called(part, brief=brief))


class Name(NamedTuple):
    """A match's name: its day, and where the words begin and end, in weeks."""

    x: float
    left: float
    right: float

    def meets(self, other: "Name") -> bool:
        """Tell whether both have no room on one row."""
        return self.left < other.right + GAP and other.left < self.right + GAP

    def hides(self, other: "Name") -> bool:
        """Tell whether it lies on the line from another match to its name, if that is above."""
        return self.left < other.x < self.right


def place_names(names: Sequence[Name]) -> tuple[int, ...]:
    """Return a row from the top for each name: none on another, and as few as can be on a line."""
    found: list[tuple[int, tuple[int, ...]]] = [(0, ())]
    for at, name in enumerate(names):
        longer = [
            (cost + row + _crowding(name, row, names[:at], rows), (*rows, row))
            for cost, rows in found
            for row in range(ROWS)
        ]
        found = sorted(longer)[:BEAM]
    return found[0][1]


def _crowding(name: Name, row: int, others: Sequence[Name], rows: Sequence[int]) -> int:
    cost = 0
    for other, at in zip(others, rows, strict=True):
        cost += 1000 * (at == row and name.meets(other))
        cost += 50 * (at < row and name.hides(other)) + 50 * (row < at and other.hides(name))
    return cost


def _name(frame: ChartFrame, part: FixturePart) -> Name:
    wide, x = _width(_called(part), GREAT, frame), frame.x(part.date)
    # names may stand in the room beside the last week too
    last = len(frame.weeks) + (RIGHT - 0.1) / frame.wide
    left = max(0.0, min(x, last - wide))
    return Name(x, left, left + wide)


def _called(part: FixturePart, *, brief: bool = False) -> str:
    name = drawable(part.called, 9 if brief else 22)
    return f"{part.date.day} {part.date:%b}  {name}"


def _peak(frame: ChartFrame, axes: Axes, x: tuple[float, float], row: int, words: str) -> None:
    theme = frame.theme
    axes.plot([x[0], x[0]], [row + 0.5, ROWS], color=theme.accent, lw=1.6, zorder=1)
    axes.plot([x[0]], [ROWS], "D", ms=14, mfc=theme.accent, mec=theme.ink, clip_on=False)
    axes.text(
        x[1], row + 0.5, words, fontsize=GREAT, fontweight="bold", va="center",
        bbox={"fc": theme.paper, "ec": "none", "pad": 1.5}, zorder=3,
    )  # fmt: skip


# --- calendar -------------------------------------------------------------------------------


def _months(frame: ChartFrame, axes: Axes) -> None:
    """Name the months that have room for it."""
    axes.set_ylim(0, 1)
    day, last = frame.weeks[0].monday, frame.weeks[-1].monday + dt.timedelta(days=6)
    while day <= last:
        coming = (day.replace(day=1) + dt.timedelta(days=32)).replace(day=1)
        left, right = frame.x(day) - 0.5 / 7, frame.x(min(coming, last)) - 0.5 / 7
        axes.plot([left, left], [0, 1], color=frame.theme.soft, lw=1)
        if _width("May ", PLAIN, frame) < right - left:
            axes.text(left + 0.15, 0.5, f"{day:%b}", fontsize=PLAIN, va="center")
        day = coming


def _breaks(frame: ChartFrame, axes: Axes, season: Season) -> None:
    """Draw breaks in a lane of their own, so that no name meets a month's."""
    axes.set_ylim(0, 1)
    first, last = frame.weeks[0].monday, frame.weeks[-1].monday + dt.timedelta(days=6)
    end = 0.0
    for item in dict.fromkeys(each for week in season.weeks for each in week.breaks):
        if item.first > last or item.last < first:
            continue
        left = frame.x(max(item.first, first)) - 0.5 / 7
        right = frame.x(min(item.last, last)) + 0.5 / 7
        axes.plot([left, right], [0.92, 0.92], color=frame.theme.accent, lw=4)
        start = max(end, left)
        axes.text(start, 0.38, item.kind, fontsize=PLAIN, fontstyle="italic", va="center",
                  color=frame.theme.accent)  # fmt: skip
        end = start + _width(item.kind, PLAIN, frame) + 0.3


# --- ladders --------------------------------------------------------------------------------


def _strip(frame: ChartFrame, axes: Axes, quality: Quality, high: float) -> None:
    """Draw one quality: each stretch on a band as a box with code and name."""
    axes.set_ylim(0, 1)
    parts = [week.qualities[quality.key] for week in frame.weeks]
    for left, right, part in stretches(frame.weeks, parts):
        if part.rung is not None:
            _box(frame, axes, quality, (left, right, high), part)
    name = "\n".join(textwrap.wrap(drawable(quality.name, 30), 12))
    axes.text(-0.2 / frame.wide, 0.5, name, fontsize=PLAIN, fontweight="bold", ha="right",
              va="center")  # fmt: skip


def _box(
    frame: ChartFrame,
    axes: Axes,
    quality: Quality,
    size: tuple[int, int, float],
    part: QualityPart,
) -> None:
    left, right, high = size
    assert part.rung is not None
    colour = colour_of(quality, part.rung)
    axes.add_artist(
        Rectangle((left + 0.05, 0.06), right - left - 0.1, 0.88, fc=colour, ec=frame.theme.ink,
                  lw=0.8)
    )  # fmt: skip
    lines, wide = _lines(part, (right - left) * frame.wide, high), (right - left) * frame.wide
    upright = max(map(len, lines)) * SIGN * PLAIN > wide
    axes.text(
        (left + right) / 2, 0.5, "\n".join(lines), ha="center", va="center", fontsize=PLAIN,
        color=text_on(colour), fontweight="bold", linespacing=1.05, rotation=90 * upright,
    )  # fmt: skip


def _lines(part: QualityPart, wide: float, high: float) -> Sequence[str]:
    """Return the code and, where all of it has room, the name of a band."""
    code = drawable(part.band or "?", 4)
    signs = int((wide - 0.12) / (SIGN * PLAIN))
    if signs < 1:
        return [code]
    told = textwrap.wrap(
        f"{code} {drawable(part.label, 40)}".replace(" %", "\u00a0%"), signs, break_long_words=False
    )
    fits = len(told) * PLAIN * 1.15 / 72 < 0.88 * high and max(map(len, told)) <= signs
    return told if fits else [code]


def _foot(frame: ChartFrame, axes: Axes) -> None:
    """Number every fourth week."""
    axes.set_ylim(0, 1)
    for column, week in enumerate(frame.weeks):
        if column % 4 == 0:
            axes.text(column + 0.5, 0.7, str(week.week), ha="center", va="center", fontsize=PLAIN)
    axes.text(-0.2 / frame.wide, 0.7, "Week", ha="right", va="center", fontsize=PLAIN,
              fontweight="bold")  # fmt: skip


def _unnamed(frame: ChartFrame, axes: Axes, season: Season, highs: Sequence[float]) -> None:
    """Say what the bands are called whose name has no room in a box."""
    found: dict[str, str] = {}
    for quality, high in zip(season.qualities, highs, strict=True):
        parts = [week.qualities[quality.key] for week in frame.weeks]
        for left, right, part in stretches(frame.weeks, parts):
            code = drawable(part.band or "?", 4)
            if part.rung is not None and _lines(part, (right - left) * frame.wide, high) == [code]:
                found[code] = drawable(part.label, 40)
    told = "; ".join(f"{code} {label}" for code, label in sorted(found.items()))
    signs = int(len(frame.weeks) * frame.wide / (SIGN * PLAIN))
    lines = textwrap.wrap(told, signs)[:2]
    axes.set_ylim(0, 1)
    axes.text(0, 1, "\n".join(lines), fontsize=PLAIN, va="top", linespacing=1.2)
