"""The columns of a plan: each declared once, wherever a plan is shown or read."""

import pytest

from cli.files.plan_rows import NEEDED, PASSED_OVER, USED
from cli.render.week_columns import COLUMNS, IN_FILE, OF_QUALITY


def test_columns_of_a_file_have_a_place_each_and_none_is_left_out():
    assert [column.place for column in IN_FILE] == list(range(1, len(IN_FILE) + 1))


@pytest.mark.parametrize("medium", ["file", "terminal", "sheet", "page"])
def test_no_name_stands_twice_in_one_medium(medium):
    names = [getattr(column, medium) for column in COLUMNS]
    names += [column.file for column in OF_QUALITY if medium == "file"]
    named = [name for name in names if name]

    assert len(set(named)) == len(named)


def test_every_column_of_a_file_is_read_or_passed_over_but_never_both():
    names = [column.file for column in IN_FILE]

    assert set(names) <= set(USED) | set(PASSED_OVER)
    assert not set(USED) & set(PASSED_OVER)
    assert set(NEEDED) <= set(names)


def test_what_may_be_changed_on_a_sheet_has_a_name_in_the_file_it_is_read_as():
    changed = [column for column in COLUMNS if column.sheet and column.back == "changed"]

    assert changed
    assert all(column.file for column in changed)
