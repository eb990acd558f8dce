"""Rows added to a person's own table, all else in it left as it stands."""

import csv
import io
from collections.abc import Mapping, Sequence


def rows_added(text: str, rows: Sequence[Mapping[str, str]], columns: Sequence[str]) -> str:
    """Return the text of a table with rows added at its end, in its own columns.

    A column that is missing for them is added to the first line; all else stays as it is. An empty
    text begins with all the columns.

    Parameters
    ----------
    rows
        Cells by column.
    columns
        All that a row may have, in their usual order.
    """
    lines = text.splitlines(keepends=True)
    ending = "\r\n" if lines and lines[0].endswith("\r\n") else "\n"
    at = next((n for n, line in enumerate(lines) if line.strip() and line[0] != "#"), None)
    if at is None:
        head, separator = list(columns), ","
        lines.append(_line(head, separator, ending))
    else:
        separator = separator_of(lines[at])
        head = next(csv.reader([lines[at]], delimiter=separator))
        known = [name.strip().lower() for name in head]
        more = [n for n in columns if n not in known and any(row.get(n) for row in rows)]
        if more:
            head = [*head, *more]
            lines[at] = _line(head, separator, ending)
    if lines and not lines[-1].endswith("\n"):
        lines[-1] += ending
    names = [name.strip().lower() for name in head]
    lines += [_line([row.get(name, "") for name in names], separator, ending) for row in rows]
    return "".join(lines)


def separator_of(line: str) -> str:
    """Return the sign that separates the names of a first line."""
    return max((",", ";", "\t"), key=line.count)


def _line(cells: Sequence[str], separator: str, ending: str) -> str:
    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator=ending).writerow(cells)
    return out.getvalue()
