import contextlib
import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cli.files.errors import InputError
from cli.files.squad import read_squad
from optimiser.athlete.library import default_library
from optimiser.athlete.squad import Group, Lift

HEADER = "name,group,body_mass_kg"


def read(tmp_path, *lines, encoding="utf-8"):
    file = tmp_path / "squad.csv"
    file.write_text("\n".join(lines), encoding=encoding)
    library = default_library()
    return read_squad(file, library.exercises, library.tags)


def refused(tmp_path, *lines):
    with pytest.raises(InputError) as caught:
        read(tmp_path, *lines)
    return caught.value


def test_reads_every_kind_of_column(tmp_path):
    squad = read(
        tmp_path,
        "name,group,body_mass_kg,age,under_18,height_cm,squat_1rm_kg,bench_press_load_kg,"
        "bench_press_reps,split_10_m_s,split_30_m_s,sled_20_loss_pct,restriction,"
        "unavailable_from,unavailable_to,cleared,plyometrics_ready",
        "Ada Merrow,Non playing,78.5,24,no,178,140,80,5,1.9,4.15,13,"
        "knee; back 2026-09-01/2026-09-30,2026-12-20,2027-01-02,no,yes",
    )

    (found,) = squad.athletes
    assert (found.group, found.body_mass_kg, found.age) == (Group.NON_PLAYING, 78.5, 24)
    assert found.lifts["squat"] == Lift(one_rm_kg=140)
    assert found.lifts["bench_press"] == Lift(load_kg=80, reps=5)
    assert found.splits == {10: 1.9, 30: 4.15}
    assert found.sled_losses == {20: 13}
    assert [tag.tag for tag in found.restrictions] == ["knee", "back"]
    assert found.restrictions[1].last.isoformat() == "2026-09-30"
    assert found.plyometrics_ready


def test_reads_semicolons_a_byte_order_mark_and_empty_lines(tmp_path):
    squad = read(
        tmp_path,
        "Name;Group;Body_mass_kg;age",
        "",
        "Bo Tarn;starters;90;",
        ";;;",
        encoding="utf-8-sig",
    )

    assert [found.name for found in squad.athletes] == ["Bo Tarn"]


def test_reads_two_hundred_athletes(tmp_path):
    squad = read(tmp_path, HEADER, *(f"Athlete {n},squad,{60 + n % 40}" for n in range(200)))

    assert len(squad.athletes) == 200


@pytest.mark.parametrize(
    ("header", "row", "where", "said"),
    [
        (HEADER, "Ada,squad,", "line 2, body_mass_kg", "must be given"),
        (HEADER, 'Ada,squad,"78,5"', "line 2, body_mass_kg", "Write 78.5."),
        (HEADER, "Ada,squad,78,5", "line 2", "decimals with a point"),
        (HEADER, "Ada,,78", "line 2, group", "must be given"),
        (HEADER, "Ada,startrs,78", "line 2, group", "mean starters?"),
        (HEADER, "Ada,squad,heavy", "line 2, body_mass_kg", "must be a number"),
        (HEADER, "Ada,squad,inf", "line 2, body_mass_kg", "must be a number"),
        (HEADER, "Ada,squad,780", "line 2, body_mass_kg", "at most 250"),
        (f"{HEADER},squat_1rm_kg", "Ada,squad,78,-5", "line 2, squat_1rm_kg", "greater than 0"),
        (f"{HEADER},squat_load_kg", "Ada,squad,78,90", "line 2, squat", "come together"),
        (f"{HEADER},split_10_m_s", "Ada,squad,78,0", "line 2, split_10_m_s", "greater than 0"),
        (f"{HEADER},sled_20_loss_pct", "A,squad,78,100", "line 2, sled_20_loss_pct", "less than"),
        (f"{HEADER},age", "Ada,squad,78,16.5", "line 2, age", "whole number"),
        (f"{HEADER},under_18", "Ada,squad,78,maybe", "line 2, under_18", "yes or no"),
        (f"{HEADER},age,under_18", "Ada,squad,78,20,yes", "line 2", "must agree"),
        (f"{HEADER},restriction", "Ada,squad,78,kne", "line 2, restriction", "mean knee?"),
        (f"{HEADER},restriction", "Ada,squad,78,knee soon", "line 2, restriction", "with dates"),
        (f"{HEADER},restriction", "A,squad,78,knee 2026-99-99/", "line 2, restriction", "date"),
        (f"{HEADER},unavailable_to", "A,squad,78,1.9.26", "line 2, unavailable_to", "2026-09-05"),
        (f"{HEADER},squat_1rm", "Ada,squad,78,100", "line 1", "mean squat_1rm_kg?"),
        (f"{HEADER},skwat_1rm_kg", "Ada,squad,78,100", "line 1", "mean squat_1rm_kg?"),
        (f"{HEADER},born", "A,squad,78,06/09/09", "line 2, born", "2009 or 9 June 2009"),
        (f"{HEADER},dob", "A,squad,78,soon", "line 2, dob", "must be a day of birth"),
        (f"{HEADER},born", "A,squad,78,2024-05-01", "line 2, born", "8 to 99 years"),
        (f"{HEADER},born,age", "A,squad,78,2009-05-01,30", "line 2, born", "must agree"),
        (f"{HEADER},age,age", "Ada,squad,78,20,20", "line 1", "age twice"),
        ("name,group", "Ada,squad", "line 1", "no body_mass_kg"),
        (HEADER, "", "", "at least one athlete"),
        ("", "", "line 1", "no name"),
    ],
)
def test_says_what_is_wrong_where_and_what_to_do(tmp_path, header, row, where, said):
    error = refused(tmp_path, header, row)

    assert error.where == where
    assert said in str(error)
    assert error.do


CELLS = st.sampled_from(
    ["Ada", "squad", "78", "-1", "1e9", "0", "78,5", "NaN", '"', "knee", "knee /", ";", "\x00", "é"]
) | st.text(max_size=5)
COLUMNS = st.sampled_from(
    ["age", "restriction", "squat_reps", "split_10_m_s", "sled_20_loss_pct", "unavailable_to", ""]
)


@given(st.lists(COLUMNS, max_size=4), st.lists(st.lists(CELLS, max_size=8), max_size=4))
def test_no_file_ends_in_anything_but_a_squad_or_an_input_error(tmp_path_factory, names, rows):
    file = tmp_path_factory.getbasetemp() / "any.csv"
    lines = [",".join([HEADER, *names]), *(",".join(row) for row in rows)]
    file.write_bytes("\n".join(lines).encode("utf-8", "surrogatepass"))
    library = default_library()

    with contextlib.suppress(InputError):
        assert read_squad(file, library.exercises, library.tags).athletes


def test_two_of_one_name_are_told_by_line(tmp_path):
    error = refused(tmp_path, HEADER, "Ada,squad,70", "Bo,squad,80", "ADA,starters,75")

    assert error.where == "line 4, name"
    assert "line 2" in str(error)


def test_columns_of_ones_own_and_comments_are_let_be(tmp_path):
    squad = read(
        tmp_path,
        "# first team, from the club's sheet",
        "name,shoe size,group,,body_mass_kg,cleared_by,cleared",
        "Ada Merrow,41,squad,x,70,Dr Lund,yes",
        "# Bo Tarn has left",
    )

    (found,) = squad.athletes
    assert (found.body_mass_kg, found.cleared) == (70, True)


@pytest.mark.parametrize(
    ("head", "days", "ages"),
    [
        ("born", ["2009-08-31", "2009-09-01"], [18, 17]),
        ("birth date", ["31/08/2009", "01/09/2009"], [18, 17]),
        ("dob", ["08/31/09", "09/01/09"], [18, 17]),
        ("date of birth", ["31 Aug 2009", "29.02.96"], [18, 31]),
    ],
)
def test_ages_are_those_of_the_seasons_first_day(tmp_path, head, days, ages):
    file = tmp_path / "squad.csv"
    rows = [f"A{at},squad,70,{day}" for at, day in enumerate(days)]
    file.write_text("\n".join([f"{HEADER},{head}", *rows]))
    library = default_library()
    squad = read_squad(file, library.exercises, library.tags, dt.date(2027, 8, 31))

    assert [each.age for each in squad.athletes] == ages
    assert [each.young for each in squad.athletes] == [age < 18 for age in ages]
