"""The comparison chart: a plan before, a plan after, and the difference."""

from collections.abc import Sequence
from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from cli.render.pictures.chart_frame import ChartFrame, draw_heading, season_frame
from cli.render.pictures.curves import GAP, scale, ticks
from cli.render.pictures.lanes import draw_fixture, foot_lane
from cli.render.pictures.strips import dose_bar, ribbon, stretches
from cli.render.pictures.text import drawable
from cli.render.pictures.theme import PRINT, SMALL, TEXT, Theme, drawing
from optimiser.domain.document import MatchPart, PlanDocument, WeekPart
from optimiser.domain.quality import Dose, Quality, dose_of
from optimiser.domain.season import Season

KEY = "\u25b2 \u25bc band up, down    + \u2212 dose more, less"
FIXTURES, READINESS, LOAD = (1.1, 0.7), (1.9, 1.7), (3.7, 0.9)
STRIPS, FOOT = (4.75, 6.3), (11.1, 0.44)
#: Floors and heights of bands and doses, before and after, and the line of signs between them.
BEFORE, AFTER, BETWEEN = ((0.77, 0.15), (0.56, 0.18)), ((0.3, 0.15), (0.09, 0.18)), 0.505
#: Smallest difference in load that is drawn, in AU.
SAME = 1


def comparison_chart(
    before: PlanDocument,
    after: PlanDocument,
    season: Season,
    *,
    names: tuple[str, str] = ("before", "after"),
    theme: Theme = PRINT,
) -> Figure:
    """Return the chart of two plans of the same weeks and qualities.

    Parameters
    ----------
    season
        That of ``after``: its ladders, and its name.
    names
        What the two are called.

    Raises
    ------
    ValueError
        If the plans have not the same weeks and qualities.
    """
    _check(before, after, season)
    with drawing(theme):
        frame = season_frame(after.weeks, theme)
        title = f"{drawable(season.name, 60)}: what changes"
        told = tuple(drawable(name, 30) for name in names)
        draw_heading(frame, title, _below(before, after, (told[0], told[1])))
        ground = frame.panel(READINESS[0], FOOT[0] - READINESS[0])
        _changed(frame, ground, changed_weeks(before, after))
        _fixtures(frame, frame.panel(*FIXTURES), before)
        _readiness(frame, frame.panel(*READINESS), before)
        _load(frame, frame.panel(*LOAD), before)
        strips = frame.stacked(STRIPS, len(season.qualities))
        for (panel, _), quality in zip(strips, season.qualities, strict=True):
            _strip(frame, panel, quality, before)
        foot_lane(frame, frame.panel(*FOOT))
    return frame.figure


def _check(before: PlanDocument, after: PlanDocument, season: Season) -> None:
    weeks = [[week.monday for week in document.weeks] for document in (before, after)]
    if weeks[0] != weeks[1]:
        raise ValueError("both plans must have the same weeks")
    for week in (before.weeks[0], after.weeks[0]):
        if set(week.qualities) != set(season.keys):
            raise ValueError(f"both plans must have the qualities {', '.join(season.keys)}")


def _below(before: PlanDocument, after: PlanDocument, names: tuple[str, str]) -> str:
    weeks = len(changed_weeks(before, after))
    scores = (
        f"{word} {_arrow(before.match, after.match, field)}"
        for word, field in (("match score", "score"), ("at high fixtures", "at_high"))
    )
    return "   |   ".join([f"{names[0]} to {names[1]}", f"{weeks} weeks change", *scores, KEY])


def _arrow(was: MatchPart, now: MatchPart, field: str) -> str:
    told = [getattr(part, field) for part in (was, now)]
    if None in told:
        return " \u2192 ".join("none" if value is None else f"{value:.1f}" for value in told)
    return f"{told[0]:.1f} \u2192 {told[1]:.1f} ({told[1] - told[0]:+.1f})"


def _differs(was: WeekPart, now: WeekPart) -> bool:
    return was.sessions != now.sessions or any(
        (was.qualities[key].rung, was.qualities[key].dose)
        != (now.qualities[key].rung, now.qualities[key].dose)
        for key in now.qualities
    )


# --- panels ---------------------------------------------------------------------------------


def _fixtures(frame: ChartFrame, axes: Axes, before: PlanDocument) -> None:
    """Draw both calendars; a ring is drawn around every match that only one of them has."""
    axes.set_ylim(0, 2)
    weeks = {1.5: before.weeks, 0.5: frame.weeks}
    found = {y: {(f.date, f.priority) for week in weeks[y] for f in week.fixtures} for y in weeks}
    for y, here in found.items():
        axes.axhline(y, color=frame.theme.grid, lw=0.8, zorder=1)
        other = found[2 - y]
        for date, priority in sorted(here):
            draw_fixture(axes, frame.x(date), y, priority, frame.theme)
            if (date, priority) not in other:
                axes.plot(
                    [frame.x(date)], [y], "o", ms=19, mfc="none", mec=frame.theme.accent, mew=1.6,
                    clip_on=False,
                )  # fmt: skip
    _rows(frame, axes, (1.5, 0.5))
    frame.name(axes, "Fixtures", "ringed where\nthey differ", gap=GAP + 0.14)


def _rows(frame: ChartFrame, axes: Axes, places: tuple[float, float]) -> None:
    for word, y in zip(("before", "after"), places, strict=True):
        axes.text(
            -0.08 / frame.wide, y, word, ha="right", va="center", fontsize=SMALL,
            color=frame.theme.soft,
        )  # fmt: skip


def _readiness(frame: ChartFrame, axes: Axes, before: PlanDocument) -> None:
    """Draw both readiness lines, and the target where it has changed."""
    theme = frame.theme
    axes.set_ylim(0, 104)
    scale(axes, theme, range(0, 101, 20))
    x = [column + 0.5 for column in range(len(frame.weeks))]
    was = [week.readiness for week in before.weeks]
    now = [week.readiness for week in frame.weeks]
    for column, week in enumerate(frame.weeks):
        if week.block is not None:
            axes.plot([column, column + 1], [week.target] * 2, color=theme.accent, lw=1.4, zorder=2)
    axes.fill_between(x, was, now, fc="none", ec=theme.soft, hatch="|||", lw=0, zorder=1)
    axes.plot(x, was, color=theme.ink, lw=1.3, ls=(0, (4, 2)), zorder=3)
    axes.plot(x, now, color=theme.ink, lw=2.2, zorder=4)
    _line_key(frame, axes)
    frame.name(axes, "Planned\nreadiness", "0 to 100", gap=GAP)


def _line_key(frame: ChartFrame, axes: Axes) -> None:
    theme, inch = frame.theme, 1 / frame.wide
    left = len(frame.weeks) + 0.1 * inch
    looks: tuple[tuple[str, int, dict[str, Any]], ...] = (
        ("after", 78, {"color": theme.ink, "lw": 2.2}),
        ("before", 64, {"color": theme.ink, "lw": 1.3, "ls": (0, (4, 2))}),
        ("target", 50, {"color": theme.accent, "lw": 1.4}),
    )
    for word, y, look in looks:
        axes.plot([left, left + 0.18 * inch], [y, y], clip_on=False, **look)
        axes.text(left + 0.23 * inch, y, word, fontsize=SMALL, va="center", clip_on=False)
    axes.set_xlim(0, len(frame.weeks))


def _load(frame: ChartFrame, axes: Axes, before: PlanDocument) -> None:
    """Draw the difference in each week's load: up is more than before."""
    theme = frame.theme
    changes = [
        now.load.total - was.load.total for was, now in zip(before.weeks, frame.weeks, strict=True)
    ]
    most = max(100, *map(abs, changes))
    axes.set_ylim(-1.15 * most, 1.15 * most)
    step = ticks(2 * most).step
    scale(axes, theme, range(-(most // step) * step, most + 1, step))
    axes.axhline(0, color=theme.ink, lw=1)
    for column, change in enumerate(changes):
        if abs(change) >= SAME:
            axes.bar(
                column + 0.5, change, width=0.7, fc=theme.soft if change > 0 else theme.paper,
                ec=theme.ink, lw=0.8, zorder=2,
            )  # fmt: skip
    frame.name(axes, "Load, change", "AU a week", gap=GAP)


def _changed(frame: ChartFrame, axes: Axes, weeks: Sequence[int]) -> None:
    """Lay a quiet ground under the weeks that change."""
    axes.set_zorder(-1)
    for number in weeks:
        column = number - frame.weeks[0].week
        axes.axvspan(column, column + 1, color=frame.theme.wash, lw=0)


def _strip(frame: ChartFrame, axes: Axes, quality: Quality, before: PlanDocument) -> None:
    """Draw one quality twice and, between the two, what goes up and what goes down."""
    axes.set_ylim(0, 1)
    for weeks, bands, doses in ((before.weeks, *BEFORE), (frame.weeks, *AFTER)):
        parts = [week.qualities[quality.key] for week in weeks]
        for left, right, part in stretches(weeks, parts):
            ribbon(frame, axes, quality, (left, right), bands, part, label=False)
        for column, part in enumerate(parts):
            dose_bar(frame, axes, quality, column, doses, part)
    for column, (was, now) in enumerate(zip(before.weeks, frame.weeks, strict=True)):
        axes.text(
            column + 0.5, BETWEEN, change_words(was, now, quality.key), ha="center", va="center",
            fontsize=TEXT, fontweight="bold",
        )  # fmt: skip
    _rows(frame, axes, (0.75, 0.28))
    frame.name(axes, drawable(quality.name, 18), gap=GAP)


def change_words(was: WeekPart, now: WeekPart, key: str) -> str:
    """Return signs for one cell's change: band up or down, else dose more or less."""
    old, new = was.qualities[key], now.qualities[key]
    if old.rung != new.rung:
        if None in (old.rung, new.rung):
            return "\u00d7" if new.rung is None else "\u25cb"
        return "\u25b2" if (new.rung or 0) > (old.rung or 0) else "\u25bc"
    more: Dose = dose_of(new.dose)
    less: Dose = dose_of(old.dose)
    return "" if more == less else "+" if more > less else "\u2212"


def changed_weeks(before: PlanDocument, after: PlanDocument) -> Sequence[int]:
    """Return the numbers of the weeks whose bands, doses or sessions differ."""
    pairs = zip(before.weeks, after.weeks, strict=True)
    return [now.week for was, now in pairs if _differs(was, now)]
