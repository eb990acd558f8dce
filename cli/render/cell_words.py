"""Changed cells and weeks in words."""

from collections.abc import Sequence

from cli.render.words import one_line
from optimiser.change.cells import CellChange
from optimiser.change.side_by_side import WeekRow
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of


def cell_words(season: Season, change: CellChange) -> str:
    """Return one changed cell: ``Sprint S4 full -> S3 reduced``."""
    name = one_line(season.qualities[change.quality].name)
    before = done(season, change.quality, change.rung_before, change.dose_before)
    after = done(season, change.quality, change.rung_after, change.dose_after)
    return f"{name} {before} -> {after}"


def done(season: Season, quality: int, rung: int | None, dose: Dose) -> str:
    """Return what is done in a cell: band and dose, or nothing."""
    if rung is None or dose is Dose.NONE:
        return "nothing"
    return f"{season.qualities[quality].bands[rung].code} {dose.word}"


def changed_week_words(season: Season, row: WeekRow) -> str:
    """Return one changed week as a line."""
    week = season.weeks[row.week]
    if week.closed:
        return f"Week {week.number} ({week.monday}): closed, no training"
    parts = [cell_words(season, change) for change in row.cells]
    if row.sessions_before != row.sessions_after:
        before, after = (f"{field} field {gym} gym" for field, gym in sessions_before_after(row))
        parts.append(f"sessions {before} -> {after}")
    return f"Week {week.number} ({week.monday}): {'; '.join(parts)}"


def sessions_before_after(row: WeekRow) -> Sequence[tuple[int, int]]:
    """Return field and gym sessions before and after."""
    return row.sessions_before, row.sessions_after


def week_data(season: Season, row: WeekRow) -> dict[str, object]:
    """Return one changed week as plain data; weeks and rungs are counted from 1."""
    return {
        "week": number_of(row.week),
        "monday": season.weeks[row.week].monday.isoformat(),
        "sessions_before": _sessions(row.sessions_before),
        "sessions_after": _sessions(row.sessions_after),
        "cells": [
            {
                "quality": season.keys[change.quality],
                "before": _cell(season, change.quality, change.rung_before, change.dose_before),
                "after": _cell(season, change.quality, change.rung_after, change.dose_after),
            }
            for change in row.cells
        ],
    }


def _sessions(pair: tuple[int, int]) -> dict[str, int]:
    return {"field": pair[0], "gym": pair[1]}


def _cell(season: Season, quality: int, rung: int | None, dose: Dose) -> dict[str, object]:
    band = None if rung is None else season.qualities[quality].bands[rung].code
    return {"band": band, "rung": None if rung is None else rung + 1, "dose": dose.word}
