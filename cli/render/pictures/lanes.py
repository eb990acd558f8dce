"""Lanes of a season chart: months, phases and blocks; fixtures; week numbers and lighter weeks."""

import datetime as dt
import math
from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from unicodedata import east_asian_width

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from cli.render.pictures.chart_frame import NUMBER, ChartFrame
from cli.render.pictures.text import drawable
from cli.render.pictures.theme import MARKERS, SMALL, TEXT, Theme
from cli.render.week_marks import DELOAD, TAPER, week_marks
from optimiser.domain.document import FixturePart, WeekPart
from optimiser.domain.fixture import Priority
from optimiser.domain.season import Season

#: Inches one sign of small type takes, on the wide side.
SIGN = 0.076
#: Names of great matches: levels to put them on, and signs a line.
LEVELS, LONGEST = 3, 34
#: Signs of a name where there is no room for more.
SHORT = 9
#: Half weeks a name may stand beside its match where all levels are full.
ASIDE = 30
#: Grounds of the phases; their names stand on them as well.


def runs(weeks: Sequence[WeekPart], key: str) -> Iterator[tuple[int, int, object]]:
    """Yield first and last column and the value of each stretch of weeks alike in ``key``."""
    at = 0
    for value, group in groupby(weeks, key=lambda week: getattr(week, key)):
        length = sum(1 for _ in group)
        yield at, at + length, value
        at += length


def calendar_lane(frame: ChartFrame, axes: Axes, season: Season) -> None:
    """Draw months, breaks, phases and blocks under one another."""
    axes.set_ylim(0, 4)
    theme = frame.theme
    first, last = frame.weeks[0].monday, frame.weeks[-1].monday + dt.timedelta(days=7)
    edges = [first, *_firsts_of_months(first, last), last]
    for start, end in pairwise(edges):
        left, right = frame.x(start) - 0.5 / 7, frame.x(end) - 0.5 / 7
        axes.plot([left, left], [3.05, 3.95], color=theme.grid, lw=0.8)
        long = f"{start:%b %Y}" if start == first or start.month == 1 else f"{start:%b}"
        room = (right - left) * frame.wide - 0.06
        words = next((each for each in (long, f"{start:%b}") if 0.09 * len(each) < room), "")
        axes.text(left + 0.12, 3.5, words, va="center", fontsize=TEXT, fontweight="bold")
    for left, right, phase in runs(frame.weeks, "phase"):
        words = str(getattr(phase, "value", phase))
        _span(axes, frame, (left, right), (1.08, 0.84), words, words.split("-")[0])
    for left, right, block in runs(frame.weeks, "block"):
        words = "closed" if block is None else f"block {block}"
        short = "" if block is None else str(block)
        _span(axes, frame, (left, right), (0.08, 0.84), words, short, quiet=True)
    frame.name(axes, "Calendar", "months, breaks,\nphases, blocks")
    _breaks(frame, axes, season)


def _firsts_of_months(first: dt.date, last: dt.date) -> list[dt.date]:
    days = (first + dt.timedelta(days=n) for n in range(1, (last - first).days))
    return [day for day in days if day.day == 1]


def _span(
    axes: Axes,
    frame: ChartFrame,
    x: tuple[int, int],
    y: tuple[float, float],
    words: str,
    short: str = "",
    *,
    quiet: bool = False,
) -> None:
    """Draw a named stretch of weeks; where its name does not fit, the short one."""
    theme, wide = frame.theme, (x[1] - x[0]) * frame.wide
    axes.add_artist(
        Rectangle(
            (x[0] + 0.04, y[0]), x[1] - x[0] - 0.08, y[1], lw=0.6, ec=theme.soft,
            fc=theme.paper if quiet else theme.wash,
        )
    )  # fmt: skip
    fits = next((each for each in (words, short) if each and SIGN * len(each) < wide - 0.06), "")
    axes.text(
        (x[0] + x[1]) / 2, y[0] + y[1] / 2, fits, ha="center", va="center", fontsize=SMALL,
        color=theme.ink,
    )  # fmt: skip


def _breaks(frame: ChartFrame, axes: Axes, season: Season) -> None:
    """Mark breaks with a bar and their kind, in a lane of their own."""
    first = frame.weeks[0].monday
    last = frame.weeks[-1].monday + dt.timedelta(days=6)
    end = -math.inf
    for item in dict.fromkeys(item for week in season.weeks for item in week.breaks):
        if item.first > last or item.last < first:
            continue
        left = frame.x(max(item.first, first)) - 0.5 / 7
        right = frame.x(min(item.last, last)) + 0.5 / 7
        axes.plot([left, right], [2.1, 2.1], color=frame.theme.accent, lw=2.4, zorder=4)
        start = break_name(left, SIGN * len(item.kind) / frame.wide, end, len(frame.weeks))
        if start is not None:
            end = start + SIGN * len(item.kind) / frame.wide + 0.2
            axes.text(
                start, 2.26, item.kind, fontsize=SMALL, color=frame.theme.accent, ha="left",
                va="bottom", fontstyle="italic",
            )  # fmt: skip


def break_name(left: float, wide: float, end: float, weeks: int) -> float | None:
    """Return where the name of a break begins: on the sheet, and none over the one before."""
    start = max(0.0, min(left, weeks - wide))
    return start if start >= end else None


# --- fixtures -------------------------------------------------------------------------------


def fixture_lane(frame: ChartFrame, axes: Axes) -> None:
    """Draw every match by its priority's shape and size, the great ones with their names."""
    axes.set_ylim(0, 1)
    theme = frame.theme
    axes.axhline(0.12, color=theme.grid, lw=0.8, zorder=1)
    for part in _fixtures(frame.weeks):
        draw_fixture(axes, frame.x(part.date), 0.12, part.priority, theme)
    _labels(frame, axes)
    frame.name(axes, "Fixtures", "high \u25c6  medium \u25b2\nlow \u25cb")


def _fixtures(weeks: Sequence[WeekPart]) -> list[FixturePart]:
    return [fixture for week in weeks for fixture in week.fixtures]


def draw_fixture(axes: Axes, x: float, y: float, priority: Priority, theme: Theme) -> None:
    """Draw one match."""
    shape, size = MARKERS[priority]
    face = {
        Priority.PEAK: theme.accent,
        Priority.HIGH: theme.accent,
        Priority.MEDIUM: theme.ink,
        Priority.LOW: theme.paper,
    }[priority]
    axes.plot(
        [x], [y], shape, ms=size, mfc=face, mec=theme.ink, mew=0.9, clip_on=False, zorder=5
    )  # fmt: skip


def _labels(frame: ChartFrame, axes: Axes) -> None:
    """Name every great match, the highest first, so that no name runs into another."""
    taken: list[list[tuple[float, float]]] = [[] for _ in range(LEVELS)]
    order = {Priority.PEAK: 0, Priority.HIGH: 1, Priority.MEDIUM: 2}
    great = [part for part in _fixtures(frame.weeks) if part.priority in order]
    for part in sorted(great, key=lambda each: (order[each.priority], each.date)):
        place = _free_place(frame, frame.x(part.date), part, taken)
        if place is not None:
            _name(frame, axes, part, *place)


def _free_place(
    frame: ChartFrame, x: float, part: FixturePart, taken: list[list[tuple[float, float]]]
) -> tuple[int, float, str, list[str]] | None:
    """Return level, place, alignment and lines of the longest name that still has room."""
    who = part.called
    day = f"{part.date.day} {part.date:%b}"
    for lines in ([who, _where(part)], [who, day], [who], [drawable(who, SHORT)]):
        told = [drawable(line, LONGEST) for line in lines]
        wide = max(map(_inches, told)) / frame.wide
        # as a last resort beside its match, with a line to it
        aside = [("left", x + step / 2) for step in range(1, ASIDE)] if len(lines) == 1 else []
        for side, at in (("left", x), ("right", x), *aside):
            start = at if side == "left" else at - wide
            level = next((n for n, ends in enumerate(taken) if _free(start, wide, ends)), None)
            if level is not None and start >= 0 and start + wide <= len(frame.weeks):
                taken[level].append((start, start + wide + 0.3))
                return level, at, side, told
    return None


def _inches(words: str) -> float:
    """Return about how wide small type is; signs of East Asian scripts are twice as wide."""
    return sum(0.12 if east_asian_width(sign) in "WF" else 0.064 for sign in words)


def _free(start: float, wide: float, ends: Sequence[tuple[float, float]]) -> bool:
    return all(start > right or start + wide < left for left, right in ends)


def _name(
    frame: ChartFrame,
    axes: Axes,
    part: FixturePart,
    level: int,
    at: float,
    side: str,
    lines: list[str],
) -> None:
    x, bottom = frame.x(part.date), 0.27 + 0.25 * level
    axes.plot([x, at], [0.2, bottom + 0.02], color=frame.theme.soft, lw=0.6, zorder=2)
    axes.text(
        at, bottom, "\n".join(lines), fontsize=SMALL, ha=side, va="bottom", linespacing=1.1,
        fontweight="bold" if part.priority.great else "normal",
        bbox={"fc": frame.theme.paper, "ec": "none", "pad": 0.6}, zorder=3,
    )  # fmt: skip


def _where(part: FixturePart) -> str:
    day = f"{part.date.day} {part.date:%b}"
    return f"{day}, {part.competition}" if part.opponent and part.competition else day


# --- foot -----------------------------------------------------------------------------------


def foot_lane(frame: ChartFrame, axes: Axes) -> None:
    """Draw week numbers, and under them the letters of deloads, tapers and weeks for tests."""
    axes.set_ylim(0, 2)
    step = max(1, round(0.5 + NUMBER / frame.wide)) if frame.wide < NUMBER * 0.7 else 1
    for column, week in enumerate(frame.weeks):
        if column % step == 0:
            axes.text(
                column + 0.5, 1.5, str(week.week), ha="center", va="center", fontsize=SMALL,
                color=frame.theme.soft,
            )  # fmt: skip
        _marks(frame, axes, column, week)
    frame.name(axes, "Week", y=0.76)
    axes.text(
        -0.12 / frame.wide, 0.5, "deload D, taper T, tests R", ha="right", va="center",
        fontsize=SMALL, color=frame.theme.soft,
    )  # fmt: skip


def _marks(frame: ChartFrame, axes: Axes, column: int, week: WeekPart) -> None:
    theme = frame.theme
    letters = week_marks(week)
    for place, letter in enumerate(letters):
        full = letter == TAPER
        x = column + (0.5 if len(letters) == 1 else 0.26 + 0.48 * place)
        axes.text(
            x, 0.5, letter, ha="center", va="center", fontsize=SMALL, fontweight="bold",
            color=theme.paper if full else theme.ink,
            bbox={
                "boxstyle": "square,pad=0.16" if letter == DELOAD else "round,pad=0.16",
                "fc": theme.ink if full else theme.paper,
                "ec": theme.ink,
                "lw": 0.7,
            },
        )  # fmt: skip
