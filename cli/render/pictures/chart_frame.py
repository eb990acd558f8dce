"""The frame all season charts share: one column a week, panels under one another."""

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from cli.render.pictures.theme import A3_WIDE, LARGE, SMALL, TITLE, Theme
from optimiser.domain.document import WeekPart

#: Room for names on the left and for labels on the right, in inches.
LEFT, RIGHT = 2.0, 0.78
#: Room for one week's number, in inches.
NUMBER = 0.27


@dataclass(frozen=True)
class ChartFrame:
    """A figure with room for panels.

    Parameters
    ----------
    weeks
        The weeks shown, one unit wide each.
    """

    figure: Figure
    theme: Theme
    weeks: tuple[WeekPart, ...]

    @property
    def wide(self) -> float:
        """Return the inches one week takes."""
        return float(self.figure.get_figwidth() - LEFT - RIGHT) / len(self.weeks)

    def x(self, day: dt.date) -> float:
        """Return where a day's middle stands."""
        return ((day - self.weeks[0].monday).days + 0.5) / 7

    def panel(self, top: float, high: float) -> Axes:
        """Return an empty panel, ``top`` inches below the upper edge and ``high`` inches high."""
        width, height = self.figure.get_size_inches()
        at = (LEFT / width, 1 - (top + high) / height)
        axes = self.figure.add_axes((*at, (width - LEFT - RIGHT) / width, high / height))
        axes.set_xlim(0, len(self.weeks))
        axes.set_xticks([])
        axes.set_yticks([])
        for side in axes.spines.values():
            side.set_visible(False)
        return axes

    def stacked(self, span: tuple[float, float], many: int) -> Iterator[tuple[Axes, float]]:
        """Yield empty panels one under the other, and how high each is; at least five fit."""
        top, high = span[0], span[1] / max(5, many)
        for place in range(many):
            yield self.panel(top + place * high, high), high

    def name(
        self, axes: Axes, words: str, note: str = "", *, y: float = 0.5, gap: float = 0.12
    ) -> None:
        """Write a panel's name to its left, ``gap`` inches off, and a smaller note under it."""
        gap /= self.figure.get_figwidth() - LEFT - RIGHT
        size, lines = LARGE if note else 10.0, note.count("\n") + 1
        high = float(axes.get_position().height * self.figure.get_figheight())
        below = 0.17 * words.count("\n") / 2
        lift = (0.075 * lines + below) / high if note else 0.0
        axes.text(
            -gap, y + lift, words, transform=axes.transAxes, ha="right", va="center",
            fontsize=size, fontweight="bold",
        )  # fmt: skip
        if note:
            axes.text(
                -gap, y + lift - (0.1 + below) / high, note, transform=axes.transAxes, ha="right",
                va="top", fontsize=SMALL, color=self.theme.soft, linespacing=1.3,
            )  # fmt: skip


def season_frame(weeks: Sequence[WeekPart], theme: Theme, high: float = A3_WIDE[1]) -> ChartFrame:
    """Return a frame as wide as A3; wider if the weeks need it."""
    width = max(A3_WIDE[0], LEFT + RIGHT + 0.2 * len(weeks))
    return ChartFrame(Figure(figsize=(width, high)), theme, tuple(weeks))


def draw_heading(frame: ChartFrame, title: str, below: str, word: str = "") -> None:
    """Write the title, the line under it, and under that lines on the plan if it is not good."""
    width, height = frame.figure.get_size_inches()
    at, lift = 0.4 / width, 0.2 if word else 0.0
    frame.figure.text(
        at, 1 - (0.5 - lift) / height, title, fontsize=TITLE, fontweight="bold", va="center"
    )
    frame.figure.text(
        at, 1 - (0.83 - lift) / height, below, fontsize=10.5, color=frame.theme.soft, va="center"
    )
    frame.figure.text(
        at, 1 - 0.74 / height, word, fontsize=8, fontweight="bold", va="top", linespacing=1.15
    )


def guides(frame: ChartFrame, top: float, high: float) -> None:
    """Draw a line down all panels at each high fixture."""
    axes = frame.panel(top, high)
    axes.set_zorder(-1)
    for week in frame.weeks:
        for fixture in week.fixtures:
            if fixture.priority.great:
                colour = frame.theme.accent
                axes.axvline(frame.x(fixture.date), color=colour, lw=0.9, ls=(0, (1, 2.5)))
