import csv
import json
import sys

import click
import pytest

from cli.files.results import check_results, row_cells, write_results
from optimiser.batch.row import COLUMNS, BatchRow

ROWS = [
    BatchRow(
        season='Åby "B", 2026', rules="as written", status="proven", gap=0.0, match=91.25,
        at_high=99.0, peak_load=2100, largest_ramp=33.3, weeks_at_caps=4, deloads=7, tapers=2,
        seconds=3.5, digest="ab", seed=7, key="k1", file="a.toml",
    ),
    BatchRow(season="Other", rules="strict", status="clash", why_not="no plan\nkeeps all of: rest"),
]  # fmt: skip


def test_csv_reads_back_cell_by_cell(tmp_path):
    write_results(tmp_path / "r.csv", ROWS)

    with (tmp_path / "r.csv").open(newline="", encoding="utf-8") as file:
        read = list(csv.DictReader(file))
    assert tuple(read[0]) == COLUMNS
    assert read == [
        {name: "" if cell is None else str(cell) for name, cell in row_cells(row).items()}
        for row in ROWS
    ]


def test_json_reads_back(tmp_path):
    write_results(tmp_path / "r.json", ROWS)

    assert json.loads((tmp_path / "r.json").read_text()) == [row_cells(row) for row in ROWS]


def test_parquet_reads_back_with_its_kinds(tmp_path):
    parquet = pytest.importorskip("pyarrow.parquet", reason="needs seasonwright[parquet]")

    write_results(tmp_path / "r.parquet", ROWS)

    table = parquet.read_table(tmp_path / "r.parquet")
    assert table.to_pylist() == [row_cells(row) for row in ROWS]
    assert {str(table.schema.field(name).type) for name in ("peak_load", "seed")} == {"int64"}


def test_every_number_of_a_row_has_a_column():
    assert set(COLUMNS) == set(BatchRow.model_fields) - {"plan"}


def test_without_pyarrow_parquet_is_refused_before_any_work(monkeypatch, tmp_path):
    monkeypatch.setitem(sys.modules, "pyarrow", None)

    with pytest.raises(click.BadParameter, match=r"seasonwright\[parquet\]"):
        check_results(tmp_path / "r.parquet")
