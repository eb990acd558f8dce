"""Dates whose year, month and day stand in columns of their own, each brought into one."""

import datetime as dt
from collections.abc import Sequence

from cli.files.fixtures_columns import TITLE_ROWS, has_date, plain_name
from cli.files.fixtures_head import Row
from cli.files.fixtures_months import month_of
from optimiser.domain.wording import listed

YEAR = ("year", "yr", "yyyy", "jahr", "annee", "ano", "anno", "jaar")
MONTH = ("month", "mon", "mm", "monat", "mois", "mes", "mese", "maand")
DAY = ("day", "dd", "dayofmonth", "daynumber", "dom", "tag", "jour", "dia", "giorno", "dag")
LAST_DAY, LAST_MONTH = 31, 12


def with_dates(rows: Sequence[Row]) -> tuple[list[Row], str]:
    """Return the rows of a table with its dates in one column, and a notice where they were not.

    A table that names its dates stays as it is. Without a column of years dates have none, which is
    asked about as of any list.
    """
    for number, (where, head) in enumerate(rows[:TITLE_ROWS]):
        if has_date(head):
            break
        parts = [_column(head, names) for names in (YEAR, MONTH, DAY)]
        year, month, day = parts
        below = rows[number + 1 :]
        if month is not None and day is not None and _are_days(below, month, day):
            made = [(place, _merged(cells, year, month, day)) for place, cells in below]
            named = [
                "Date" if at == day else "" if at in parts else cell for at, cell in enumerate(head)
            ]
            told = listed([head[part] for part in parts if part is not None])
            notice = f"dates are read from the columns {told}"
            return [*rows[:number], (where, named), *made], notice
    return list(rows), ""


def _column(head: Sequence[str], names: Sequence[str]) -> int | None:
    found = [at for at, cell in enumerate(head) if plain_name(cell) in names]
    return found[0] if len(found) == 1 else None


def _are_days(rows: Sequence[Row], month: int, day: int) -> bool:
    """Tell whether two columns hold months and days of them, wherever both hold something."""
    pairs = [(cells[month], cells[day]) for _, cells in rows if len(cells) > max(month, day)]
    filled = [(one.strip(), other.strip()) for one, other in pairs if one.strip() and other.strip()]
    return bool(filled) and all(_month(one) and _day(other) for one, other in filled)


def _month(text: str) -> str:
    """Return a month as it stands in a date; empty if it is none."""
    if text.isdecimal():
        return f"{int(text):02d}" if 1 <= int(text) <= LAST_MONTH else ""
    return text if month_of(text.strip(".")) else ""


def _day(text: str) -> int:
    plain = text.lower().rstrip(".")
    for ending in ("st", "nd", "rd", "th"):
        plain = plain.removesuffix(ending)
    return int(plain) if plain.isdecimal() and 1 <= int(plain) <= LAST_DAY else 0


def _merged(cells: Sequence[str], year: int | None, month: int, day: int) -> list[str]:
    """Return a row with its date where the day stood."""
    made = list(cells)
    if len(cells) <= max(month, day) or not cells[month].strip() or not cells[day].strip():
        return made
    named, number = _month(cells[month].strip()), _day(cells[day].strip())
    whole = cells[year].strip() if year is not None and len(cells) > year else ""
    made[day] = _date(whole, named, number)
    for at in (month, *([] if year is None else [year])):
        made[at] = ""
    return made


def _date(year: str, month: str, day: int) -> str:
    if not month.isdecimal():
        return " ".join(filter(None, (str(day), month.strip("."), year)))
    if year.isdecimal() and len(year) == 2:
        year = f"20{year}"
    return f"{year}-{month}-{day:02d}" if year else f"{day} {dt.date(2000, int(month), 1):%B}"
