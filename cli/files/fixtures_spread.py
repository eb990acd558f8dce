"""Rows of several days: a match for each of them."""

from collections.abc import Sequence

from cli.files.fixtures_dates import date_order, split_cell
from cli.files.fixtures_found import DateOrder
from cli.files.fixtures_rows import Given
from cli.files.fixtures_spans import days_of_span


def spread_days(given: Sequence[Given], asked: DateOrder) -> tuple[list[Given], list[str]]:
    """Return rows with one for each day of a date such as 5-7 June 2027, and a notice of it."""
    dates = [split_cell(cells["date"])[0] for _, cells in given]
    order = asked or date_order(dates)[0] or "day-first"
    found: list[Given] = []
    spread = []
    for where, cells in given:
        days = days_of_span(cells["date"], order)
        if days:
            spread.append(f"{where} ({cells['date']})")
            told = f"{where} ({cells['date']}) is read as a match on each of its {len(days)} days"
        found += [(where, {**cells, "date": str(day)}) for day in days] or [(where, cells)]
    if not spread:
        return found, []
    if len(spread) > 1:
        told = f"{len(spread)} rows, {spread[0]} first, are read as a match on each of their days"
    return found, [f"{told}; a row for each match, with its minutes, says more"]
