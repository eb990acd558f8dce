import pytest

from cli.edits import read_value
from cli.files.changes_file import Origin, changed_season, read_changes, read_futures
from cli.files.errors import InputError
from optimiser.domain.edits import Set


@pytest.fixture
def written(tmp_path):
    def write(text):
        path = tmp_path / "changes.toml"
        path.write_text(text)
        return path

    return write


def season_of(loaded, given):
    return changed_season(loaded, given.changes.name, given.changes.edits, given.origin)


def test_a_file_without_a_name_is_called_as_the_file(written):
    given = read_changes(written('[[edits]]\nedit = "drop"\ndate = 2026-10-03\n'))

    assert given.changes.name == "changes"
    assert given.changes.edits[0].edit == "drop"


def test_an_unknown_edit_is_answered_with_the_known_ones(written):
    path = written('name = "x"\n[[edits]]\nedit = "shift"\ndate = 2026-10-03\n')

    with pytest.raises(InputError, match=r"line 2.*one of move, add, drop"):
        read_changes(path)


def test_a_wrong_key_of_an_edit_has_its_line(written):
    path = written('name = "x"\n\n[[edits]]\nedit = "drop"\ndate = 2026-10-03\nto = 2026-10-04\n')

    with pytest.raises(InputError, match=r"line 6, edits\[1\]\.to: is not a key.*known here: date"):
        read_changes(path)


def test_a_wrong_date_has_its_line(written):
    path = written('name = "x"\n[[edits]]\nedit = "drop"\ndate = "soon"\n')

    with pytest.raises(InputError, match=r"line 4, edits\[1\]\.date: must be a date"):
        read_changes(path)


def test_an_empty_list_of_edits_is_refused(written):
    with pytest.raises(InputError, match="edits"):
        read_changes(written('name = "x"\nedits = []\n'))


def test_an_edit_that_cannot_be_made_is_told_with_its_place(short, written):
    given = read_changes(
        written('name = "x"\n[[edits]]\nedit = "move"\ndate = 2026-10-03\nto = 2026-10-17\n')
    )

    with pytest.raises(InputError, match=r"line 2, edits\[1\]\.to.*Ashby Vale"):
        season_of(short, given)


def test_a_parameter_out_of_range_is_told_with_its_place(short, written):
    given = read_changes(
        written(
            'name = "x"\n[[edits]]\nedit = "set"\nrule = "blocks"\nparameter = "shortest"\n'
            "value = 99\n"
        )
    )

    with pytest.raises(InputError, match=r"line 2, edits\[1\]\.blocks\.shortest.*\(got 99\)"):
        season_of(short, given)


def test_a_rule_that_does_not_exist_is_told(short):
    edit = Set(rule="progresion", parameter="up", value=1)
    origin = Origin("options", labels=("--set progresion.up=1",))

    with pytest.raises(InputError, match=r"^--set progresion\.up=1: must be the name of a rule"):
        changed_season(short, "x", [edit], origin)


def test_a_pin_outside_the_season_is_told(short, written):
    given = read_changes(
        written('[[edits]]\nedit = "pin"\nweek = 8\nquality = "sprint"\nband = "S1"\n')
    )

    with pytest.raises(InputError, match="week must be 1 to 7"):
        season_of(short, given)


def test_the_same_season_has_the_same_digest_however_it_was_changed(short, written):
    there = read_changes(
        written(
            '[[edits]]\nedit = "move"\ndate = 2026-10-03\nto = 2026-10-06\n'
            '[[edits]]\nedit = "move"\ndate = 2026-10-06\nto = 2026-10-03\n'
        )
    )

    assert season_of(short, there).loaded.digest == short.digest


def test_futures_need_different_names(written):
    path = written('[[futures]]\nname = "A"\n[[futures]]\nname = "A"\n')

    with pytest.raises(InputError, match="names of futures must differ"):
        read_futures(path)


def test_one_future_alone_is_no_choice(written):
    with pytest.raises(InputError, match="at least 2"):
        read_futures(written('[[futures]]\nname = "A"\n'))


@pytest.mark.parametrize(
    ("text", "value"), [("2", 2), ("[55, 35]", [55, 35]), ("first", "first"), ("true", True)]
)
def test_values_of_options_are_read_as_toml_and_bare_words_as_text(text, value):
    assert read_value(text) == value
