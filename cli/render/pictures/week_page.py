"""Two weeks on an A4 page, day by day: to pin up in the gym."""

import textwrap
from collections.abc import Sequence
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from cli.render.pictures.strips import HEIGHTS, colour_of
from cli.render.pictures.text import drawable
from cli.render.pictures.theme import A4_HIGH, PRINT, SMALL, TEXT, Theme, drawing, text_on
from optimiser.domain.document import WeekPart
from optimiser.domain.quality import Quality

#: Inches.
EDGE, HALF, LINE, PAD, BAND = 0.5, 5.3, 0.148, 0.09, 0.24
WIDTH = A4_HIGH[0] - 2 * EDGE
#: Where columns begin, from the left edge: near, what, load.
NEAR, WHAT, LOAD = 1.0, 1.54, 6.2
LEGEND = (
    "Bar beside a band: empty none, a third touch, two thirds reduced, all of it full. Grey bar: "
    "load of the day in AU,\nthe same scale on every page. MD-2: two days before a match, MD+1: "
    "the day after."
)
#: Height of a line of notes, and lines that have room on every page.
NOTE, FEWEST_NOTES = 0.13, 3
#: Signs on one line of the column of what is done, and most lines a day.
SIGNS, MOST = 68, 7


class DayLines(NamedTuple):
    """One day as it is drawn: its name, its place to a match, what is done, its load in AU."""

    name: str
    near: str
    things: tuple[str, ...]
    load: int
    match: bool


class WeekLines(NamedTuple):
    """One week as it is drawn.

    Parameters
    ----------
    work
        Each band's name and sets.
    most
        Highest load of any day of the season, in AU: the scale of the bars.
    """

    part: WeekPart
    title: str
    about: str
    days: tuple[DayLines, ...]
    notes: tuple[str, ...]
    work: tuple[str, ...] = ()
    most: int = 0


def week_page(
    weeks: Sequence[WeekLines], qualities: Sequence[Quality], foot: str, theme: Theme = PRINT
) -> Figure:
    """Return a page with one or two weeks."""
    with drawing(theme):
        figure = Figure(figsize=A4_HIGH)
        axes = figure.add_axes((0, 0, 1, 1))
        axes.set_axis_off()
        axes.set_xlim(0, A4_HIGH[0])
        axes.set_ylim(A4_HIGH[1], 0)
        for place, week in enumerate(weeks[:2]):
            _week(axes, theme, EDGE + place * HALF, week, qualities)
        axes.text(
            EDGE, A4_HIGH[1] - 0.62, LEGEND, fontsize=SMALL - 1, color=theme.soft, va="center"
        )
        axes.text(
            EDGE, A4_HIGH[1] - 0.32, drawable(foot, 140), fontsize=SMALL - 1, color=theme.soft
        )
    return figure


def _week(
    axes: Axes, theme: Theme, top: float, week: WeekLines, qualities: Sequence[Quality]
) -> None:
    axes.text(EDGE, top + 0.16, drawable(week.title, 50), fontsize=15, fontweight="bold",
              va="center")  # fmt: skip
    ready = f"planned readiness {week.part.readiness:.0f}   target {week.part.target:.0f}"
    axes.text(EDGE + WIDTH, top + 0.1, ready, fontsize=TEXT, ha="right", va="center",
              fontweight="bold")  # fmt: skip
    load = f"{week.part.load.total} AU, {week.part.load.training} of it training"
    axes.text(EDGE + WIDTH, top + 0.28, load, fontsize=SMALL, ha="right", va="center",
              color=theme.soft)  # fmt: skip
    axes.text(EDGE, top + 0.4, drawable(week.about, 90), fontsize=SMALL + 0.5, color=theme.soft,
              va="center")  # fmt: skip
    _chips(axes, theme, top + 0.54, week.part, qualities)
    begin = _work(axes, top + 1.06, week.work)
    notes = _wrapped(week.notes, 112)
    floor = top + HALF - 0.22 - NOTE * max(FEWEST_NOTES, len(notes))
    bottom = _days(axes, theme, begin, floor, week)
    for number, note in enumerate(notes):
        axes.text(EDGE, bottom + 0.1 + number * NOTE, note, fontsize=SMALL - 0.5, va="center",
                  color=theme.soft)  # fmt: skip


def _work(axes: Axes, top: float, work: Sequence[str]) -> float:
    """Write what each band is and its sets this week; return where that ends."""
    lines = _wrapped(work, 116)
    for number, line in enumerate(lines):
        axes.text(EDGE, top + number * 0.135, drawable(line, 122), fontsize=SMALL - 0.5,
                  va="center")  # fmt: skip
    return top + 0.135 * len(lines) + 0.02


def _chips(
    axes: Axes, theme: Theme, top: float, part: WeekPart, qualities: Sequence[Quality]
) -> None:
    """Draw each quality's band and dose side by side."""
    wide = WIDTH / len(qualities)
    for place, quality in enumerate(qualities):
        left, here = EDGE + place * wide, part.qualities[quality.key]
        axes.text(left, top + 0.05, drawable(quality.name, int(wide / 0.07)), fontsize=SMALL - 1,
                  color=theme.soft, va="center")  # fmt: skip
        if here.rung is None:
            axes.text(left, top + 0.26, "closed", fontsize=SMALL, va="center", color=theme.soft)
            continue
        colour = colour_of(quality, here.rung)
        axes.add_artist(Rectangle((left, top + 0.14), 0.38, BAND, fc=colour, ec=theme.ink, lw=0.6))
        axes.text(left + 0.19, top + 0.265, drawable(here.band or "?", 4), ha="center",
                  va="center", fontsize=TEXT, fontweight="bold", color=text_on(colour))  # fmt: skip
        _gauge(axes, theme, left + 0.43, top + 0.14, here.dose)
        axes.text(left + 0.58, top + 0.265, here.dose, fontsize=SMALL - 0.5, va="center")


def _gauge(axes: Axes, theme: Theme, left: float, top: float, dose: str) -> None:
    high = BAND * HEIGHTS[dose]
    axes.add_artist(Rectangle((left, top), 0.1, BAND, fc="none", ec=theme.soft, lw=0.5))
    axes.add_artist(
        Rectangle((left, top + BAND - high), 0.1, high, fc=theme.ink, ec=theme.ink, lw=0.5)
    )


def _days(axes: Axes, theme: Theme, top: float, floor: float, week: WeekLines) -> float:
    """Draw the days under one another, down to ``floor`` at most, and return where they end."""
    lines = [_wrapped(day.things, SIGNS)[:MOST] for day in week.days]
    room = (floor - top) / sum(LINE * len(each) + 2 * PAD for each in lines)
    shrink, most = min(1.6, room), max(1, week.most, *(day.load for day in week.days))
    for day, told in zip(week.days, lines, strict=True):
        high = shrink * (LINE * len(told) + 2 * PAD)
        _day(axes, theme, (top, high), day, told, most)
        top += high
    axes.plot([EDGE, EDGE + WIDTH], [top, top], color=theme.soft, lw=0.8)
    return top


def _day(
    axes: Axes,
    theme: Theme,
    y: tuple[float, float],
    day: DayLines,
    lines: Sequence[str],
    most: int,
) -> None:
    top, high = y
    if day.match:
        axes.add_artist(Rectangle((EDGE, top), WIDTH, high, fc=theme.wash, lw=0))
    axes.plot([EDGE, EDGE + WIDTH], [top, top], color=theme.soft if not day.name else theme.grid,
              lw=0.7)  # fmt: skip
    middle = top + high / 2
    axes.text(EDGE + 0.05, middle, day.name, fontsize=TEXT, va="center", fontweight="bold")
    axes.text(EDGE + NEAR, middle, day.near, fontsize=SMALL, va="center")
    for number, line in enumerate(lines):
        at = middle + (number - (len(lines) - 1) / 2) * LINE
        axes.text(EDGE + WHAT, at, drawable(line, SIGNS + 8), fontsize=SMALL + 0.5, va="center")
    if day.load:
        wide = (WIDTH - LOAD - 0.42) * day.load / most
        axes.add_artist(Rectangle((EDGE + LOAD, middle - 0.06), wide, 0.12, fc=theme.soft, lw=0))
        axes.text(EDGE + WIDTH, middle, str(day.load), fontsize=SMALL, ha="right", va="center")


def _wrapped(things: Sequence[str], signs: int) -> list[str]:
    return [line for thing in things for line in textwrap.wrap(thing, signs)]
