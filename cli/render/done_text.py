"""Planned against done, as text, rows and plain data."""

import datetime as dt
from collections.abc import Sequence
from typing import Any

from cli.files.safe_cell import safe_csv
from cli.render.cell_words import cell_words, done
from cli.render.terminal import filled, hanging, table_text
from cli.render.words import one_line
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.progress.against import Against, WeekAgainst
from optimiser.progress.done_session import DoneSession
from optimiser.review.rounding import kept

#: Signs that a bar of load is long at most, and the signs of planned and done.
BAR, PLANNED, DONE = 30, "-", "#"
HEADS = ("week", "Monday", "load planned", "done", "", "readiness planned", "now", "load")
FIELDS = (
    "week", "monday", "recorded", "load_planned", "load_done", "readiness_planned",
    "readiness_now", "otherwise",
)  # fmt: skip
ABOUT = (
    f"Load in AU (minutes x rating), practice and matches counted in; {DONE} done, {PLANNED} "
    "planned and not done. Readiness is the planned index: by the plan, and worked anew from what "
    "was done. * nothing recorded: taken as planned."
)


def done_text(season: Season, found: Against, *, who: str, today: dt.date) -> str:
    """Return the weeks that are over, planned and done, and what it means at the peaks to come."""
    head = f"{one_line(season.name, 80)}, {today}: planned and done, {one_line(who, 40)}"
    if not found.weeks:
        return f"{head}\n\nNo week is over yet, and nothing is recorded."
    table = table_text(_rows(season, found.weeks), HEADS)
    parts = [head, table, filled(ABOUT), _otherwise(season, found), _peaks(found)]
    return "\n\n".join(part for part in parts if part)


def _rows(season: Season, weeks: Sequence[WeekAgainst]) -> list[list[str]]:
    most = max(max(week.load_planned, week.load_done) for week in weeks) or 1
    return [
        [
            f"{number_of(week.week)}{'' if week.recorded else '*'}",
            str(season.weeks[week.week].monday),
            str(week.load_planned),
            str(week.load_done),
            share_words(week),
            f"{week.ready_planned:.1f}",
            f"{week.ready_now:.1f}",
            _bar(week, most),
        ]
        for week in weeks
    ]


def share_words(week: WeekAgainst) -> str:
    """Return by how much more or less was done than planned; nothing if as much."""
    if not week.load_planned or week.load_planned == week.load_done:
        return ""
    return f"{100 * week.load_done / week.load_planned - 100:+.0f} %"


def _bar(week: WeekAgainst, most: int) -> str:
    made = round(BAR * week.load_done / most)
    return DONE * made + PLANNED * max(0, round(BAR * week.load_planned / most) - made)


def _otherwise(season: Season, found: Against) -> str:
    told = [
        f"- Week {number_of(week.week)}: {_cells(season, week)}"
        for week in found.weeks
        if week.cells
    ]
    lines = [hanging(line) for line in told]
    return "\n".join(["Done otherwise than planned:", *lines]) if lines else ""


def _cells(season: Season, week: WeekAgainst) -> str:
    return "; ".join(cell_words(season, cell) for cell in week.cells)


def _peaks(found: Against) -> str:
    lines = [
        f"- Week {number_of(peak.week)}, {peak.fixture.date} {one_line(peak.fixture.name, 30)}: "
        f"{peak.ready_now:.1f}, {peak.ready_planned:.1f} as planned, target {peak.target:.0f}"
        for peak in found.peaks
    ]
    head = "Planned readiness at the high matches to come, if all goes on as planned:"
    return "\n".join([head, *lines]) if lines else ""


def athletes_text(rows: Sequence[tuple[str, Against]]) -> str:
    """Return one line an athlete: load and doses over all weeks that are over."""
    heads = ("who", "load planned", "done", "", "doses less", "doses more", "readiness now")
    return table_text([_athlete(name, found) for name, found in rows], heads)


def _athlete(name: str, found: Against) -> list[str]:
    planned = sum(week.load_planned for week in found.weeks)
    made = sum(week.load_done for week in found.weeks)
    cells = [cell for week in found.weeks for cell in week.cells]
    return [
        one_line(name, 30),
        str(planned),
        str(made),
        f"{100 * made / planned - 100:+.0f} %" if planned else "",
        str(sum(cell.dose_after < cell.dose_before for cell in cells)),
        str(sum(cell.dose_after > cell.dose_before for cell in cells)),
        f"{found.weeks[-1].ready_now:.1f}" if found.weeks else "-",
    ]


def done_csv(shown: Sequence[tuple[str, Season, Against]]) -> str:
    """Return one row a week for each of those shown."""
    rows = (
        {**_week(season, week), "otherwise": _cells(season, week), "who": who}
        for who, season, found in shown
        for week in found.weeks
    )
    return safe_csv((*FIELDS, "who"), rows)


def as_one(shown: Sequence[dict[str, Any]]) -> dict[str, Any]:
    """Return the data of several as one: the first, and the others under ``others``."""
    first, *others = shown
    return {**first, "others": others} if others else dict(first)


def done_data(
    season: Season, found: Against, sessions: Sequence[DoneSession], *, who: str, today: dt.date
) -> dict[str, Any]:
    """Return the same as plain data, with every record; weeks from 1."""
    return {
        "format": "seasonwright.done/1",
        "season": season.name,
        "today": str(today),
        "who": who,
        "weeks": [
            {**_week(season, week), "otherwise": _cell_data(season, week)} for week in found.weeks
        ],
        "peaks": [
            {
                "week": number_of(peak.week),
                "date": str(peak.fixture.date),
                "name": peak.fixture.name,
                "target": peak.target,
                "readiness_planned": kept(peak.ready_planned),
                "readiness_now": kept(peak.ready_now),
            }
            for peak in found.peaks
        ],
        "records": [each.model_dump(mode="json", exclude_none=True) for each in sessions],
    }


def _week(season: Season, week: WeekAgainst) -> dict[str, Any]:
    return {
        "week": number_of(week.week),
        "monday": str(season.weeks[week.week].monday),
        "recorded": week.recorded,
        "load_planned": week.load_planned,
        "load_done": week.load_done,
        "readiness_planned": kept(week.ready_planned),
        "readiness_now": kept(week.ready_now),
    }


def _cell_data(season: Season, week: WeekAgainst) -> dict[str, dict[str, str]]:
    return {
        season.keys[cell.quality]: {
            "planned": done(season, cell.quality, cell.rung_before, cell.dose_before),
            "done": done(season, cell.quality, cell.rung_after, cell.dose_after),
        }
        for cell in week.cells
    }
