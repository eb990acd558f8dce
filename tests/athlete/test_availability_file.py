import datetime as dt

import pytest

from cli.files.availability_file import read_availability
from cli.files.errors import InputError

NAMES, TAGS = ["Ada Merrow", "Bea Lund"], ["hamstring", "knee", "impact"]
HEAD = "athlete,from,to,status,stage,limits,words\n"


def read(tmp_path, text):
    path = tmp_path / "availability.csv"
    path.write_text(text)
    return read_availability(path, NAMES, TAGS)


def test_entries_are_read_with_limits_and_words(tmp_path):
    found = read(
        tmp_path,
        HEAD + "ada merrow,2026-10-01,2026-10-06,Limited,2,Hamstring; no kicking,calf tight\n"
        "Bea Lund,2026-10-01,,away,,,\n",
    )

    one, two = found.entries
    assert (one.athlete, one.stage, one.tags) == ("Ada Merrow", 2, ("hamstring",))
    assert one.words == "no kicking; calf tight"
    assert (two.status, two.last) == ("away", None)


def test_dates_are_read_as_a_spreadsheet_writes_them_where_all_of_them_tell(tmp_path):
    rows = "Ada Merrow,01/03/2027,,out,,,\nAda Merrow,15/03/2027,,limited,2,knee,\n"

    found = read(tmp_path, HEAD + rows).entries

    assert [entry.first for entry in found] == [dt.date(2027, 3, 1), dt.date(2027, 3, 15)]


def test_semicolons_part_columns_as_a_spreadsheet_writes_them(tmp_path):
    found = read(tmp_path, "athlete;from;status;stage;words\nBea Lund;2026-10-01;limited;3;a, b\n")

    assert found.entries[0].words == "a, b"


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("Ada Merow,2026-10-01,,out,,,", "line 2, athlete"),
        ("Ada Merrow,01.10.2026,,out,,,", "line 2, from: must tell the day from the month"),
        ("Ada Merrow,soon,,out,,,", "line 2, from: must be a date"),
        ("Ada Merrow,2026-10-03,2026-10-01,out,,,", "swap them"),
        ("Ada Merrow,2026-10-01,,fit,,,", "must be one of out, limited, available, away"),
        ("Ada Merrow,2026-10-01,,limited,,,", "stage from 1 to 5"),
        ("Ada Merrow,2026-10-01,,limited,6,,", "stage from 1 to 5"),
        ("Ada Merrow,2026-10-01,,available,3,,", "correct one of them"),
        ("Ada Merrow,2026-10-01,,limited,two,,", "line 2, stage"),
        ("Ada Merrow,2026-10-01,,limited,1,,", "name the part"),
        ("Ada Merrow,2026-10-01,,limited,2,hamstrng,", "did you mean hamstring?"),
        ("Ada Merrow,2026-10-01,,out,,,\nAda Merrow,2026-10-01,,limited,1,knee,", "line 3, from"),
        ("Ada Merrow,2026-10-01,,out,,,,x", "at most 7 cells"),
    ],
)
def test_what_cannot_be_used_is_told_where_and_why(tmp_path, row, said):
    with pytest.raises(InputError) as found:
        read(tmp_path, HEAD + row + "\n")

    assert said.lower() in found.value.message.lower()
    assert "availability.csv" in found.value.message


@pytest.mark.parametrize(
    ("text", "said"),
    [("", "no athlete"), ("athlete,from\n", "no status"), ("athlete,frm,status\n", "mean from")],
)
def test_a_first_line_that_cannot_be_used_is_told(tmp_path, text, said):
    with pytest.raises(InputError, match=said):
        read(tmp_path, text)
