import datetime as dt

import pytest

from cli.files.errors import InputError
from cli.files.fixtures_file import find_fixtures
from cli.files.fixtures_found import ListFacts

opendocument = pytest.importorskip("odf.opendocument")


def _sheet(path, rows):
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    document = opendocument.OpenDocumentSpreadsheet()
    table = Table(name="Fixtures")
    for row in rows:
        line = TableRow()
        for value in row:
            if isinstance(value, dt.date):
                cell = TableCell(valuetype="date", datevalue=value.isoformat())
            elif isinstance(value, int):
                cell = TableCell(valuetype="float", value=value)
            else:
                cell = TableCell(valuetype="string")
                cell.addElement(P(text=value))
            line.addElement(cell)
        table.addElement(line)
    document.spreadsheet.addElement(table)
    document.save(str(path))


def test_a_spreadsheet_is_read_as_a_csv_is(tmp_path):
    path = tmp_path / "list.ods"
    rows = [
        ["Our fixtures", ""],
        ["Date", "Opponent", "Minutes"],
        [dt.date(2026, 9, 5), "Redlow", 80],
        [dt.date(2026, 9, 12), "Pinmoor & Co", 70],
    ]
    _sheet(path, rows)

    found = find_fixtures(path, ListFacts())

    assert [(f.fixture.date, f.fixture.opponent, f.fixture.minutes) for f in found.listed] == [
        (dt.date(2026, 9, 5), "Redlow", 80),
        (dt.date(2026, 9, 12), "Pinmoor & Co", 70),
    ]
    assert found.listed[0].where == "row 3"


def test_what_is_no_spreadsheet_is_refused_in_one_line(tmp_path):
    path = tmp_path / "list.ods"
    path.write_bytes(b"not a zip")

    with pytest.raises(InputError, match="must be a spreadsheet"):
        find_fixtures(path, ListFacts())
