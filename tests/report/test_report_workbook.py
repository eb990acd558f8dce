import io
import re
from contextlib import suppress

import pytest
from openpyxl import load_workbook

from cli.files.errors import InputError
from cli.files.plan_file import read_plan
from cli.files.plan_xlsx import quality_heads
from cli.render.pictures.ramp import ramp_limits
from cli.report.load_sheet import FIRST
from cli.report.season_sheet import band_column
from cli.report.sheets import HEADS
from cli.report.workbook import workbook_bytes
from optimiser.domain.quality import Dose


@pytest.fixture(scope="module")
def data(small):
    return workbook_bytes(small)


@pytest.fixture
def book(data):
    return load_workbook(io.BytesIO(data))


@pytest.fixture
def saved(book, tmp_path, small):
    """Save a changed workbook and read its plan back."""

    def read(name="plan.xlsx"):
        book.save(tmp_path / name)
        return read_plan(tmp_path / name, small.loaded, small.rules)

    return read


def cell(book, week, small, key, what):
    place = small.season.keys.index(key)
    return book["Season"].cell(HEADS + week, band_column(place) + (what == "dose"))


def test_the_season_sheet_reads_back_as_the_same_plan(saved, small):
    assert saved() == small.plan


def test_a_dose_changed_by_hand_is_read_back_changed(book, saved, small):
    cell(book, 5, small, "sprint", "dose").value = "full"
    plan = saved()

    assert plan.doses[small.season.keys.index("sprint")][4] is Dose.FULL
    assert plan.rungs == small.plan.rungs


def test_sessions_and_blocks_changed_by_hand_are_read_back(book, saved, small):
    sheet = book["Season"]
    sheet.cell(HEADS + 2, 8).value = 3.0
    for row in range(HEADS + 6, HEADS + 15):
        sheet.cell(row, 4).value += 1
    sheet.cell(HEADS + 5, 4).value = 2
    plan = saved()

    assert plan.field[1] == 3
    assert plan.starts != small.plan.starts


def test_a_wrong_band_is_told_with_its_row_and_quality(book, saved, small):
    cell(book, 5, small, "sprint", "band").value = "Z9"

    with pytest.raises(InputError) as refused:
        saved()
    assert f"row {HEADS + 5}, Sprint, band" in refused.value.where
    assert "Z9" in refused.value.format_message()


def test_a_renamed_column_is_told(book, saved):
    book["Season"].cell(HEADS, band_column(0)).value = "Running"

    with pytest.raises(InputError, match="no Sprint band"):
        saved()


def test_a_workbook_without_the_sheet_is_told(book, saved):
    book["Season"].title = "Other"

    with pytest.raises(InputError, match="must have a sheet Season"):
        saved()


@pytest.mark.parametrize("cut", [0, 1, 100, 3000, 20000])
def test_a_broken_workbook_is_told_and_not_traced(data, cut, tmp_path, small):
    path = tmp_path / "broken.xlsx"
    path.write_bytes(data[:cut])

    with pytest.raises(InputError, match="must be a workbook"):
        read_plan(path, small.loaded, small.rules)


def test_damage_anywhere_is_told_or_does_not_matter(data, tmp_path, small):
    path = tmp_path / "damaged.xlsx"
    told = 0
    for at in range(50, len(data), len(data) // 40):
        path.write_bytes(data[:at] + b"\xff\x00\xee" + data[at + 3 :])
        with suppress(InputError):
            told -= read_plan(path, small.loaded, small.rules) == small.plan
        told += 1

    assert told > 0


# --- formulas -------------------------------------------------------------------------------

LOOKUP = re.compile(
    r"IFERROR\(INDEX\(Doses!\$([A-Z]+)\$(\d+):\$([A-Z]+)\$(\d+),"
    r"MATCH\(Season!([A-Z]+\d+),Doses!\$B\$\2:\$B\$\4,0\),"
    r"MATCH\(Season!([A-Z]+\d+),Doses!\$\1\$(\d+):\$\3\$\7,0\)\),0\)"
)


def looked_up(book, words):
    """Work one look-up of a dose out the way a spreadsheet does."""
    left, top, right, bottom, band, dose, heads = LOOKUP.fullmatch(words).groups()
    codes = [cell[0].value for cell in book["Doses"][f"B{top}:B{bottom}"]]
    code = book["Season"][band].value
    if code not in codes:
        return 0
    row = int(top) + codes.index(code)
    values = book["Doses"][f"{left}{row}:{right}{row}"][0]
    names = book["Doses"][f"{left}{heads}:{right}{heads}"][0]
    wanted = book["Season"][dose].value
    return next((v.value for n, v in zip(names, values, strict=True) if n.value == wanted), 0)


def test_each_load_is_looked_up_by_the_dose_on_the_season_sheet(book, small):
    sheet = book["Load"]
    for week in small.document.weeks:
        row = HEADS + week.week
        loads = [
            looked_up(book, sheet.cell(row, FIRST + place).value[1:])
            for place in range(len(small.season.qualities))
        ]
        assert sum(loads) == week.load.training


def test_minutes_are_looked_up_too(book, small):
    sheet = book["Load"]
    row = HEADS + 3
    parts = sheet.cell(row, FIRST + len(small.season.qualities) + 5).value[1:].split("+")

    minutes = sum(
        quality.minutes(small.plan.doses[place][2], small.plan.rungs[place][2])
        for place, quality in enumerate(small.season.qualities)
    )
    assert sum(looked_up(book, part) for part in parts) == minutes


def test_totals_are_formulas_over_their_own_columns(book, small):
    sheet = book["Load"]
    last = HEADS + len(small.document.weeks)
    for column in range(FIRST, FIRST + len(small.season.qualities) + 4):
        name = sheet.cell(1, column).column_letter
        assert sheet.cell(last + 2, column).value == f"=SUM({name}{HEADS + 1}:{name}{last})"


def test_the_most_load_is_what_the_rule_leaves(book, small):
    sheet = book["Load"]
    most = FIRST + len(small.season.qualities) + 4
    by_row = {HEADS + week.week: week for week in small.document.weeks}
    limits = ramp_limits(small.document, small.rules)
    assert sum(limit is not None for limit in limits) > 8

    for row, week in by_row.items():
        formula = sheet.cell(row, most).value
        limit = limits[week.week - 1]
        assert (formula is None) == (limit is None)
        if formula is not None:
            assert worked_out(formula, by_row, most) == limit


def worked_out(formula, by_row, most):
    """Work a limit out in Python: columns before it are total, matches and practice."""
    letters = {
        chr(64 + most - 1): "total",
        chr(64 + most - 2): "matches",
        chr(64 + most - 3): "practice",
    }
    text = re.sub(
        r"([A-Z])(\d+)",
        lambda m: str(getattr(by_row[int(m[2])].load, letters[m[1]])),
        formula[1:]
        .replace("SUM(", "plus(")
        .replace("ROUNDUP", "up")
        .replace("MAX", "max")
        .replace("INT", "floor"),
    )
    from math import ceil, floor

    tools = {
        "plus": lambda *v: sum(v),
        "up": lambda v, _: ceil(v - 1e-9),
        "max": max,
        "floor": lambda v: floor(v + 1e-9),
    }
    return eval(text, {"__builtins__": {}}, tools)


def test_a_reader_that_works_nothing_out_finds_the_values(small):
    data = workbook_bytes(small)
    values, formulas = (
        load_workbook(io.BytesIO(data), data_only=only)["Load"] for only in (True, False)
    )

    for week in small.document.weeks:
        row, count = HEADS + week.week, len(small.season.qualities)
        assert values.cell(row, FIRST + count).value == week.load.training
        assert values.cell(row, FIRST + count + 3).value == week.load.total
    empty = [
        cell.coordinate
        for row in formulas.iter_rows()
        for cell in row
        if cell.data_type == "f" and values[cell.coordinate].value is None
    ]
    assert empty == []


# --- text -----------------------------------------------------------------------------------


def test_no_name_becomes_a_formula(hard):
    book = load_workbook(io.BytesIO(workbook_bytes(hard)))
    formulas = [
        (sheet.title, cell.coordinate)
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    ]

    assert {title for title, _ in formulas} == {"Load"}


def test_hard_names_can_be_read_whole(hard, hard_names):
    book = load_workbook(io.BytesIO(workbook_bytes(hard)))
    opponents = [row[3].value for row in book["Fixtures"].iter_rows(min_row=HEADS + 1)]

    for name in ("script", "equals", "plus", "minus", "at", "hebrew", "emoji", "long"):
        assert hard_names[name] in opponents
    assert "North End United" in opponents
    guarded = [row[3] for row in book["Fixtures"].iter_rows(min_row=HEADS + 1)]
    assert {c.value[0] for c in guarded if c.quotePrefix} == {"=", "+", "-", "@"}


def test_a_season_with_hard_names_reads_back_too(hard, tmp_path):
    path = tmp_path / "hard.xlsx"
    path.write_bytes(workbook_bytes(hard))

    assert read_plan(path, hard.loaded, hard.rules) == hard.plan


def test_qualities_of_one_name_have_columns_of_their_own(small):
    twins = small.season.model_copy(
        update={
            "qualities": tuple(
                quality.model_copy(update={"name": "Speed"}) for quality in small.season.qualities
            )
        }
    )

    assert len(set(quality_heads(twins).values())) == len(twins.qualities)
