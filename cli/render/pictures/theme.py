"""Colours, type and shapes of every picture.

Ladders run from deep blue over teal to warm yellow, in even steps of lightness for all kinds of
colour vision and in grey (measured in the tests, with the matrices of Machado, Oliveira and
Fernandes 2009, IEEE TVCG 15(6): 1291-8). The middle is a colour; to eyes without red or green it is
a grey blue, told by its lightness. Whatever a colour says is said by a code, a shape or a height as
well.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import astuple, dataclass
from typing import Any

from matplotlib import rc_context
from matplotlib.font_manager import fontManager

from optimiser.domain.fixture import Priority

#: Paper sizes, in inches, wide by high.
A3_WIDE, A4_HIGH = (16.54, 11.69), (8.27, 11.69)
#: Points; nothing is smaller, so that A3 on a laptop's screen can still be read.
SMALL, TEXT, LARGE, TITLE = 8.0, 9.0, 11.0, 19.0
#: Marker and its size in points, by priority: told apart by shape and by size.
MARKERS = {
    Priority.PEAK: ("*", 18.0),
    Priority.HIGH: ("D", 13.0),
    Priority.MEDIUM: ("^", 10.0),
    Priority.LOW: ("o", 5.5),
}
#: Red, green and blue of the ladders from general to specific, evenly apart.
RAMP = ((29, 59, 102), (43, 106, 140), (47, 149, 141), (134, 189, 116), (250, 224, 138))
#: Families for signs that the first one lacks; those that are not installed are passed over.
FAMILIES = ("DejaVu Sans", "Noto Sans", "Noto Sans CJK JP", "Noto Sans Hebrew", "Noto Emoji")


@dataclass(frozen=True)
class Theme:
    """The colours beside those of the ladders.

    Parameters
    ----------
    ink, soft
        Text and lines that matter, and those that matter less.
    grid, wash
        Hairlines and quiet areas.
    paper
        The ground.
    accent
        The fixtures that are peaked for, and what falls short of a target.
    """

    ink: str
    soft: str
    grid: str
    wash: str
    paper: str
    accent: str


PRINT = Theme("#1d2733", "#566372", "#cdd4db", "#eef1f4", "#ffffff", "#b3361f")
#: Colours that stand for a page's own, so that a picture in it follows light and dark.
PAGE = Theme("#010101", "#020202", "#030303", "#040404", "#050505", "#060606")


def page_colours(svg: str) -> str:
    """Return a picture drawn in PAGE with the names of the page's own colours."""
    names = ("ink", "soft", "grid", "wash", "paper", "accent")
    for name, colour in zip(names, astuple(PAGE), strict=True):
        svg = svg.replace(colour, f"var(--{name})")
    return svg


def ladder_colour(place: float) -> str:
    """Return the colour of a place on a ladder, 0 general to 1 specific."""
    at = min(1.0, max(0.0, place)) * (len(RAMP) - 1)
    step = min(int(at), len(RAMP) - 2)
    mixed = zip(RAMP[step], RAMP[step + 1], strict=True)
    return "#" + "".join(f"{round(low + (high - low) * (at - step)):02x}" for low, high in mixed)


def luminance(colour: str) -> float:
    """Return the relative luminance of ``#rrggbb``, 0 to 1 (WCAG 2.2)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(first: str, second: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21 (WCAG 2.2)."""
    light, dark = sorted((luminance(first), luminance(second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def text_on(colour: str) -> str:
    """Return black or white, whichever is read better on ``colour``."""
    return max("#000000", "#ffffff", key=lambda text: contrast(colour, text))


@contextmanager
def drawing(theme: Theme, **more: Any) -> Iterator[None]:
    """Draw with the type and the colours of ``theme``; text is never read as mathematics."""
    installed = {font.name for font in fontManager.ttflist}
    settings: dict[str, Any] = {
        "font.family": [name for name in FAMILIES if name in installed],
        "font.size": TEXT,
        "text.color": theme.ink,
        "text.parse_math": False,
        "axes.edgecolor": theme.grid,
        "axes.labelcolor": theme.ink,
        "axes.facecolor": "none",
        "figure.facecolor": theme.paper,
        "xtick.color": theme.soft,
        "ytick.color": theme.soft,
        "hatch.linewidth": 0.5,
        "pdf.fonttype": 42,
        "svg.hashsalt": "season",
    }
    merged: Any = settings | more
    with rc_context(merged):
        yield
