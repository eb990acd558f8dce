"""Ladder strips: which band a quality stands on, and how much of it is done each week."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from cli.render.pictures.chart_frame import ChartFrame
from cli.render.pictures.lanes import SIGN
from cli.render.pictures.text import drawable
from cli.render.pictures.theme import SMALL, ladder_colour, text_on
from optimiser.domain.document import QualityPart, WeekPart
from optimiser.domain.quality import Quality

HEIGHTS = {"none": 0.0, "touch": 1 / 3, "reduced": 2 / 3, "full": 1.0}
#: The lower part of a strip holds the doses, the upper one the bands.
DOSES, BANDS = (0.06, 0.52), (0.62, 0.32)


def ladder_strip(frame: ChartFrame, axes: Axes, quality: Quality) -> None:
    """Draw one quality: a ribbon with its band's code, and the week's dose as a bar under it."""
    axes.set_ylim(0, 1)
    parts = [week.qualities[quality.key] for week in frame.weeks]
    _lines(frame, axes)
    for left, right, part in stretches(frame.weeks, parts):
        ribbon(frame, axes, quality, (left, right), BANDS, part)
    for column, (week, part) in enumerate(zip(frame.weeks, parts, strict=True)):
        if week.block is None and part.dose == "none":
            _closed(frame, axes, column)
        else:
            dose_bar(frame, axes, quality, column, DOSES, part)
    codes = f"{quality.bands[0].code} general to {quality.bands[-1].code} specific"
    frame.name(axes, drawable(quality.name, 18), drawable(codes, 26))


def stretches(
    weeks: Sequence[WeekPart], parts: Sequence[QualityPart]
) -> Iterator[tuple[int, int, QualityPart]]:
    """Yield first and last column of each stretch on one band within one block."""
    at = 0
    pairs = zip(weeks, parts, strict=True)
    for _, group in groupby(pairs, key=lambda pair: (pair[0].block, pair[1].rung)):
        held = list(group)
        yield at, at + len(held), held[0][1]
        at += len(held)


def colour_of(quality: Quality, rung: int) -> str:
    """Return the colour of a rung, counted from 1."""
    return ladder_colour((rung - 1) / (len(quality.bands) - 1))


def _lines(frame: ChartFrame, axes: Axes) -> None:
    """Draw the height of a full dose, and the floor."""
    for y in (DOSES[0], sum(DOSES)):
        axes.axhline(y, color=frame.theme.grid, lw=0.6, zorder=0)


def ribbon(
    frame: ChartFrame,
    axes: Axes,
    quality: Quality,
    x: tuple[int, int],
    y: tuple[float, float],
    part: QualityPart,
    *,
    label: bool = True,
) -> None:
    """Draw one stretch on a band, with the band's code and, where there is room, its words.

    Parameters
    ----------
    x
        First and last column.
    y
        Floor and height.
    """
    if part.rung is None:
        return
    colour = colour_of(quality, part.rung)
    axes.add_artist(
        Rectangle(
            (x[0] + 0.06, y[0]), x[1] - x[0] - 0.12, y[1], fc=colour, lw=0.6, ec=frame.theme.ink
        )
    )
    wide, code = (x[1] - x[0]) * frame.wide, drawable(part.band or "?", 4)
    long = f"{code}  {drawable(part.label, 40)}" if label else code
    fits = next((each for each in (long, code) if 1.12 * SIGN * len(each) < wide), "")
    axes.text(
        (x[0] + x[1]) / 2, y[0] + y[1] / 2 - 0.01, fits, ha="center", va="center_baseline",
        fontsize=SMALL, color=text_on(colour), fontweight="bold",
    )  # fmt: skip


def dose_bar(
    frame: ChartFrame,
    axes: Axes,
    quality: Quality,
    column: int,
    y: tuple[float, float],
    part: QualityPart,
) -> None:
    """Draw one week's dose as a bar, a full one ``y[1]`` high; a dash where it rests."""
    if part.rung is None:
        return
    if part.dose == "none":
        dash = [column + 0.36, column + 0.64]
        axes.plot(dash, [y[0] + 0.1 * y[1]] * 2, color=frame.theme.soft, lw=0.9)
        return
    axes.add_artist(
        Rectangle(
            (column + 0.14, y[0]), 0.72, y[1] * HEIGHTS[part.dose],
            fc=colour_of(quality, part.rung), ec=frame.theme.ink, lw=0.5,
        )
    )  # fmt: skip


def _closed(frame: ChartFrame, axes: Axes, column: int) -> None:
    axes.add_artist(
        Rectangle(
            (column, DOSES[0]), 1, sum(BANDS) - DOSES[0], fc="none", ec=frame.theme.grid, lw=0,
            hatch="xxx",
        )
    )  # fmt: skip
