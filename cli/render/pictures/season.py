"""The season chart: the whole plan on one sheet."""

import datetime as dt
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from cli.render.pictures.chart_frame import RIGHT, ChartFrame, draw_heading, guides, season_frame
from cli.render.pictures.curves import load_panel, readiness_panel
from cli.render.pictures.lanes import calendar_lane, fixture_lane, foot_lane
from cli.render.pictures.ramp import ramp_limits
from cli.render.pictures.strips import HEIGHTS, ladder_strip
from cli.render.pictures.text import drawable
from cli.render.pictures.theme import PRINT, SMALL, Theme, drawing, ladder_colour
from cli.render.proof import proof
from optimiser.domain.document import PlanDocument
from optimiser.domain.season import Season
from optimiser.domain.week_number import index_of
from optimiser.domain.wording import counted
from optimiser.rule import Rule

#: Upper edges and heights, in inches.
CALENDAR, FIXTURES, READINESS, LOAD = (1.02, 0.8), (1.82, 1.2), (3.1, 2.1), (5.32, 1.36)
STRIPS, FOOT = (6.86, 4.2), (11.1, 0.44)


def season_chart(
    document: PlanDocument,
    season: Season,
    rules: Sequence[Rule] = (),
    *,
    first: int = 1,
    last: int | None = None,
    theme: Theme = PRINT,
    word: str = "",
) -> Figure:
    """Return the chart of a plan, A3 wide for up to a year.

    Parameters
    ----------
    word
        On the plan, if it is not good.
    rules
        Those in use; the load ramp's limit is drawn if it is among them.
    first, last
        Weeks to show, counted from 1.
    """
    last = last or len(document.weeks)
    with drawing(theme):
        frame = season_frame(document.weeks[index_of(first) : last], theme)
        draw_heading(frame, drawable(season.name, 70), _below(document, season), word)
        _legend(frame)
        guides(frame, READINESS[0], FOOT[0] - READINESS[0])
        calendar_lane(frame, frame.panel(*CALENDAR), season)
        fixture_lane(frame, frame.panel(*FIXTURES))
        readiness_panel(frame, frame.panel(*READINESS))
        limits = ramp_limits(document, rules)[index_of(first) : last]
        load_panel(frame, frame.panel(*LOAD), limits)
        strips = frame.stacked(STRIPS, len(season.qualities))
        for (panel, _), quality in zip(strips, season.qualities, strict=True):
            ladder_strip(frame, panel, quality)
        foot_lane(frame, frame.panel(*FOOT))
    return frame.figure


def _below(document: PlanDocument, season: Season) -> str:
    first, last = season.weeks[0].monday, season.weeks[-1].monday + dt.timedelta(days=6)
    match = document.match
    parts = [f"{len(season.weeks)} weeks, {first.day} {first:%B %Y} to {last.day} {last:%B %Y}"]
    if match.score is not None:
        parts.append(f"match score {match.score:.1f} of 100")
    if match.at_high is not None:
        parts.append(f"{match.at_high:.1f} at high fixtures")
    if document.season is not None:
        parts.append(proof(document.season))
    if document.breaches:
        parts.append(f"breaks rules in {counted(len(document.breaches), 'place')}")
    return "   |   ".join(parts)


def _legend(frame: ChartFrame) -> None:
    """Explain ladders and doses at the top right."""
    width, height = frame.figure.get_size_inches()
    inches = 4.6
    axes = frame.figure.add_axes(
        (1 - (inches + RIGHT) / width, 1 - 0.98 / height, inches / width, 0.62 / height)
    )
    axes.set_axis_off()
    axes.set_xlim(0, inches)
    axes.set_ylim(0, 0.62)
    _ladder_key(frame, axes)
    _dose_key(frame, axes)


def _ladder_key(frame: ChartFrame, axes: Axes) -> None:
    for step in range(5):
        axes.add_artist(
            Rectangle(
                (0.62 + 0.26 * step, 0.34), 0.26, 0.2, fc=ladder_colour(step / 4),
                ec=frame.theme.ink, lw=0.5,
            )
        )  # fmt: skip
    axes.text(0.56, 0.44, "general", ha="right", va="center", fontsize=SMALL)
    axes.text(1.98, 0.44, "specific", va="center", fontsize=SMALL)
    axes.text(
        0.62, 0.14, "place on the ladder", va="center", fontsize=SMALL, color=frame.theme.soft
    )


def _dose_key(frame: ChartFrame, axes: Axes) -> None:
    for place, (dose, high) in enumerate(reversed(HEIGHTS.items())):
        left = 2.78 + 0.47 * place
        axes.plot([left, left + 0.17], [0.26, 0.26], color=frame.theme.soft, lw=0.8)
        axes.add_artist(
            Rectangle(
                (left, 0.26), 0.17, 0.3 * high, fc=ladder_colour(0.65), ec=frame.theme.ink, lw=0.5
            )
        )
        axes.text(left + 0.085, 0.14, dose, ha="center", va="center", fontsize=SMALL)
