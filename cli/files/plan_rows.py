"""From rows of a table to a plan: what is left out is worked out in the plainest way."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from pathlib import Path

from cli.files.errors import InputError
from cli.files.known_keys import nearest
from cli.render.week_columns import IN_FILE
from constraints.session_caps import SessionCaps
from optimiser.board.board import LONGEST_SESSION
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Place, Quality, dose_of
from optimiser.domain.season import Season, Week
from optimiser.domain.week_number import index_of
from optimiser.rule import Rule

NEEDED = ("week", "quality", "band", "dose")
_NAMES = [column.file or "" for column in IN_FILE if column.back != "no"]
USED = (*NEEDED, *(name for name in _NAMES if name not in NEEDED))
#: Columns of our own tables, and notes, that say nothing new.
PASSED_OVER = (*(column.file or "" for column in IN_FILE if column.back == "no"), "note", "notes")
MOST_SESSIONS = 14


@dataclass(frozen=True)
class PlanRow:
    """One row: where it stands in its file, and its cells that are not empty, by column."""

    where: str
    cells: dict[str, str]


Table = dict[tuple[int, str], PlanRow]


def plan_of_rows(
    path: Path, rows: Sequence[PlanRow], season: Season, rules: Sequence[Rule]
) -> Plan:
    """Return the plan that ``rows`` say, one row a quality in each open week.

    Band is a code or a rung from 1; empty, a quality that rests keeps its band. Blocks start
    where the ``block`` column changes; where it is empty, where any band changes or training
    restarts. Sessions left out are the fewest that hold the work.

    Raises
    ------
    InputError
        With the place of the row, if a cell cannot be used or a row is missing.
    """
    table = _table(path, rows, season)
    doses = tuple(
        tuple(_dose(path, table, week, quality) for week in season.weeks)
        for quality in season.qualities
    )
    rungs = tuple(
        tuple(_rungs(path, table, season, quality, row))
        for quality, row in zip(season.qualities, doses, strict=True)
    )
    labels = [_label(path, table, season, week) for week in season.weeks]
    return Plan(
        starts=tuple(_starts(rungs, labels)),
        rungs=rungs,
        doses=doses,
        field=_sessions(path, table, season, (rungs, doses), rules, "field"),
        gym=_sessions(path, table, season, (rungs, doses), rules, "gym"),
    )


# --- rows -----------------------------------------------------------------------------------


def _table(path: Path, rows: Sequence[PlanRow], season: Season) -> Table:
    table: Table = {}
    for row in rows:
        key = (_week(path, row, season).index, _quality(path, row, season).key)
        if key in table:
            got = f"week {key[0] + 1} {key[1]} again, as in {table[key].where}"
            raise InputError(
                path, row.where, "a quality must come once a week", got, "take one row out"
            )
        table[key] = row
    missing = [
        f"week {week.number} {key}"
        for week in season.weeks
        for key in season.keys
        if not week.closed and (week.index, key) not in table
    ]
    if missing:
        raise InputError(
            path,
            "",
            "must have a row for each quality in each open week",
            f"none for {missing[0]}" + (f" and {len(missing) - 1} more" if missing[1:] else ""),
            "add the row; where nothing is done, leave band empty and write none as its dose",
        )
    return table


def _given(path: Path, row: PlanRow, column: str) -> str:
    if column not in row.cells:
        raise InputError(
            path, f"{row.where}, {column}", "must be given", "an empty cell", "fill it in"
        )
    return row.cells[column]


def _week(path: Path, row: PlanRow, season: Season) -> Week:
    number = _whole(path, row, "week", _given(path, row, "week"), 1, len(season.weeks))
    week = season.weeks[index_of(number)]
    monday = row.cells.get("monday")
    if monday is not None and monday != week.monday.isoformat():
        raise InputError(
            path,
            f"{row.where}, monday",
            f"must be {week.monday}, the Monday of week {number}",
            monday,
            "correct it, leave the column out, or name the scenario this plan was made for",
        )
    return week


def _whole(path: Path, row: PlanRow, column: str, text: str, low: int, high: int) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 6 and low <= int(text) <= high):
        raise InputError(
            path,
            f"{row.where}, {column}",
            f"must be a whole number from {low} to {high}",
            text,
            "correct it",
        )
    return int(text)


def _quality(path: Path, row: PlanRow, season: Season) -> Quality:
    given = _given(path, row, "quality")
    by_word = {word.lower(): q for q in season.qualities for word in (q.key, q.name)}
    if given.lower() not in by_word:
        close = nearest(given, season.keys)
        raise InputError(
            path,
            f"{row.where}, quality",
            f"must be one of {', '.join(season.keys)}",
            given,
            f"did you mean {close}?" if close else "correct it",
        )
    return by_word[given.lower()]


# --- choices --------------------------------------------------------------------------------


def _dose(path: Path, table: Table, week: Week, quality: Quality) -> Dose:
    row = table.get((week.index, quality.key))
    if row is None or (week.closed and "dose" not in row.cells):
        return Dose.NONE
    try:
        return dose_of(_given(path, row, "dose"))
    except ValueError:
        raise InputError(
            path,
            f"{row.where}, dose",
            "must be none, touch, reduced or full",
            row.cells["dose"],
            "correct it",
        ) from None


def _rungs(
    path: Path, table: Table, season: Season, quality: Quality, doses: Sequence[Dose]
) -> Iterator[int | None]:
    """Yield a quality's rung by week; work in a closed week keeps its band, to be found out."""
    kept: int | None = None
    for week in season.weeks:
        row = table.get((week.index, quality.key))
        given = None if row is None else row.cells.get("band")
        if week.closed and doses[week.index] is Dose.NONE:
            yield None
            continue
        if row is not None and given is not None:
            kept = _rung(path, row, quality, given)
        elif row is not None and (doses[week.index] is not Dose.NONE or kept is None):
            _given(path, row, "band")
        yield kept


def _rung(path: Path, row: PlanRow, quality: Quality, given: str) -> int:
    codes = [band.code.lower() for band in quality.bands]
    if given.lower() in codes:
        return codes.index(given.lower())
    if given in [str(rung) for rung in range(1, len(codes) + 1)]:
        return int(given) - 1
    raise InputError(
        path,
        f"{row.where}, band",
        f"must be one of {', '.join(band.code for band in quality.bands)} or 1 to {len(codes)}",
        given,
        "correct it",
    )


def _agreed(path: Path, table: Table, season: Season, week: Week, column: str) -> PlanRow | None:
    """Return the row that gives a value of the whole week; rows that do must agree."""
    here = [table[week.index, key] for key in season.keys if (week.index, key) in table]
    giving = [row for row in here if column in row.cells]
    for row in giving[1:]:
        if row.cells[column] != giving[0].cells[column]:
            raise InputError(
                path,
                f"{row.where}, {column}",
                f"must be the same in every row of week {week.number}",
                f"{row.cells[column]}, and {giving[0].cells[column]} in {giving[0].where}",
                "correct one of them",
            )
    return giving[0] if giving else None


def _label(path: Path, table: Table, season: Season, week: Week) -> str | None:
    row = _agreed(path, table, season, week, "block")
    return row.cells["block"] if row else None


def _starts(rungs: Sequence[Sequence[int | None]], labels: Sequence[str | None]) -> Iterator[int]:
    columns = list(zip(*rungs, strict=True))
    for week, here in enumerate(columns):
        before = columns[week - 1] if week else (None,) * len(here)
        if here[0] is None:
            continue
        label = labels[week], labels[week - 1] if week else None
        changed = here != before if None in label else label[0] != label[1]
        if before[0] is None or changed:
            yield week


# --- sessions -------------------------------------------------------------------------------


def _sessions(
    path: Path,
    table: Table,
    season: Season,
    work: tuple[Sequence[Sequence[int | None]], Sequence[Sequence[Dose]]],
    rules: Sequence[Rule],
    place: Place,
) -> tuple[int, ...]:
    counts = []
    rungs, doses = work
    for week in season.weeks:
        row = _agreed(path, table, season, week, place)
        if row is not None:
            counts.append(_whole(path, row, place, row.cells[place], 0, MOST_SESSIONS))
            continue
        here = [
            (quality, doses[index][week.index], rungs[index][week.index])
            for index, quality in enumerate(season.qualities)
            if quality.place == place and doses[index][week.index] is not Dose.NONE
        ]
        counts.append(_fewest(here, rules, place))
    return tuple(counts)


def _fewest(
    here: Sequence[tuple[Quality, Dose, int | None]], rules: Sequence[Rule], place: Place
) -> int:
    """Return the fewest sessions that hold the work: long enough, and not too many pieces."""
    minutes = sum(quality.minutes(dose, rung) for quality, dose, rung in here)
    for rule in rules:
        if isinstance(rule, SessionCaps):
            longest = rule.field_minutes if place == "field" else rule.gym_minutes
            return max(ceil(minutes / longest), ceil(len(here) / rule.pieces))
    return ceil(minutes / LONGEST_SESSION)
