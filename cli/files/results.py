"""The finished results of a batch as one table."""

import json
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from types import ModuleType
from typing import Any

import click

from cli.files.safe_cell import safe_csv
from cli.files.safe_write import write_bytes
from optimiser.batch.row import COLUMNS, BatchRow

NUMBERS = {"gap", "match", "at_high", "at_medium", "at_low", "largest_ramp", "seconds"}
WHOLE = {"peak_load", "weeks_at_caps", "deloads", "tapers", "seed"}

#: Kinds of files a table is written as.
ENDINGS = (".parquet", ".csv", ".json")


def check_results(path: Path) -> None:
    """Refuse a kind of file for which a package is missing, before any work is done.

    Raises
    ------
    click.BadParameter
        If it cannot be written.
    """
    if path.suffix.lower() == ".parquet":
        _arrow()


def write_results(path: Path, rows: Sequence[BatchRow]) -> None:
    """Write ``rows`` as the ending of ``path`` says: .parquet, .csv or .json."""
    made = {".parquet": _parquet, ".csv": _csv, ".json": _json}[path.suffix.lower()](rows)
    write_bytes(path, made)


def results_csv(rows: Sequence[BatchRow]) -> str:
    """Return rows as CSV with one heading."""
    return safe_csv(COLUMNS, map(row_cells, rows))


def row_cells(row: BatchRow) -> dict[str, Any]:
    """Return a row's cells by column, None where there is no number."""
    return {name: getattr(row, name) for name in COLUMNS}


def _csv(rows: Sequence[BatchRow]) -> bytes:
    return results_csv(rows).encode()


def _json(rows: Sequence[BatchRow]) -> bytes:
    return f"{json.dumps([row_cells(row) for row in rows], indent=2)}\n".encode()


def _parquet(rows: Sequence[BatchRow]) -> bytes:
    arrow = _arrow()
    kinds = {name: arrow.float64() for name in NUMBERS} | {name: arrow.int64() for name in WHOLE}
    schema = arrow.schema([(name, kinds.get(name, arrow.string())) for name in COLUMNS])
    table = arrow.Table.from_pylist([row_cells(row) for row in rows], schema=schema)
    out = arrow.BufferOutputStream()
    import_module("pyarrow.parquet").write_table(table, out)
    made: bytes = out.getvalue().to_pybytes()
    return made


def _arrow() -> ModuleType:
    try:
        return import_module("pyarrow")
    except ImportError:
        raise click.BadParameter(
            "parquet needs the library pyarrow: run pip install 'seasonwright[parquet]', "
            "or write .csv or .json",
            param_hint="--out",
        ) from None
