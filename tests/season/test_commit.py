"""Files of a folder are written together: whatever ends it, a whole state is left."""

import datetime as dt

import pytest

from cli.season.commit import (
    Action,
    ChangedMeanwhileError,
    commit,
    open_folder,
    restore,
    step_back,
    step_on,
)
from cli.season.folder import Folder
from cli.season.history import BY_HAND, opened
from cli.season.made import make_folder
from tests.season.conftest import FIXTURES, SEASON, invoke
from tests.season.killed import KILLED, check_whole, ended_at, killed_anywhere

CHANGES = {"season.toml": b"name = 'new'\n", "fixtures.csv": b"date\n", "plan.json": b"{}\n"}
NAMES = list(CHANGES)
EARLY = dt.date(2027, 1, 30)
ACTION = Action("whatif", "a test")


def changed(folder):
    commit(folder, ACTION, CHANGES, folder.now(NAMES))


def test_a_write_that_is_killed_leaves_a_whole_state(club, tmp_path):
    before = club.now(NAMES)

    for place in killed_anywhere(club, changed, tmp_path):
        after = place.now(NAMES)
        assert after in (before, CHANGES)
        with opened(place.history) as history:
            assert {name: history.state(history.current())[name] for name in NAMES} == after
    assert after == CHANGES


SHEET = "Day,Player,Minutes\n2027-02-02,Aune,30\n2027-02-03,Birk,25\n2027-02-03,Cai,20\n"
MAPPED = ("--map", "date=Day", "--map", "who=Player", "--map", "minutes=Minutes", "--what")


def imported(folder):
    sheet = folder.path.parent / "sheet.csv"
    sheet.write_text(SHEET)
    invoke("done", folder.path, "--today", "2027-02-05", "--import", sheet, *MAPPED, "practice")


#: What writes beside `commit` itself, each with what must have happened before it.
ACTS = {
    "an import": (lambda folder: None, imported),
    "undo": (changed, lambda folder: step_back(folder, EARLY)),
    "redo": (
        lambda folder: (changed(folder), step_back(folder, EARLY)),
        lambda folder: step_on(folder, EARLY),
    ),
    "restore": (
        changed,
        lambda folder: restore(folder, version_of(folder, "plan"), EARLY),
    ),
}


def version_of(folder, action):
    with opened(folder.history) as history:
        return next(each for each in history.versions() if each.action == action)


@pytest.mark.parametrize("act", list(ACTS))
def test_all_that_writes_leaves_a_whole_state_wherever_it_is_killed(act, club, tmp_path):
    before_it, it = ACTS[act]
    before_it(club)

    check_whole(club, it, tmp_path, every=3, least=4)


def test_an_import_that_was_cut_off_can_be_asked_for_again(club, tmp_path):
    *cut_off, whole = killed_anywhere(club, imported, tmp_path, every=5)

    for place in cut_off:
        imported(place)
        assert place.now() == whole.now()


LISTED = ("fixtures.csv", FIXTURES.encode())


def made(folder):
    make_folder(folder.path, SEASON, LISTED)


def test_a_new_season_is_there_whole_or_not_at_all(tmp_path):
    check_whole(Folder(tmp_path / "club"), made, tmp_path, every=3, least=5)


def test_a_new_season_among_files_of_ones_own_leaves_them_as_they_are(tmp_path):
    folder = Folder(tmp_path / "club")
    folder.path.mkdir()
    (folder.path / "squad.csv").write_text("name,group,body_mass_kg\nAune,squad,70\n")

    kept = folder.path / "squad.csv"
    for place in killed_anywhere(folder, made, tmp_path, every=4):
        assert (place.path / "squad.csv").read_bytes() == kept.read_bytes()
    assert (place.path / "fixtures.csv").read_text() == FIXTURES


def test_a_file_changed_by_somebody_else_is_not_overwritten_and_the_difference_is_shown(club):
    seen = club.now(NAMES)
    mine = club.path / "fixtures.csv"
    mine.write_text(mine.read_text() + "2027-04-12,19:30,Ellerby,low,\n")
    before = club.now()

    with pytest.raises(ChangedMeanwhileError, match=r"\+2027-04-12,19:30,Ellerby"):
        commit(club, ACTION, CHANGES, seen)

    assert club.now() == before


def test_what_somebody_writes_into_a_broken_off_write_is_left_and_told(club, capsys):
    assert ended_at(8, lambda: changed(club)) == KILLED
    mine = club.path / "fixtures.csv"
    mine.write_text("date\n2027-03-21\n")

    open_folder(club.path)

    assert mine.read_text() == "date\n2027-03-21\n"
    assert "was changed while a write was unfinished" in capsys.readouterr().err


def test_undo_takes_back_one_action_and_redo_does_it_again(club):
    before = club.now(NAMES)
    commit(club, ACTION, CHANGES, before)

    step_back(club, EARLY)
    back = club.now(NAMES)
    step_on(club, EARLY)

    assert back == before
    assert club.now(NAMES) == CHANGES


def test_undo_keeps_what_people_have_changed_in_other_files(club):
    commit(club, ACTION, {"plan.json": b"{}\n"}, club.now(NAMES))
    squad = club.path / "squad.csv"
    squad.write_text("name,group,body_mass_kg\nAune,squad,70\n")

    step_back(club, EARLY)

    assert "Aune" in squad.read_text()


def test_undo_refuses_a_file_that_was_changed_since(club):
    commit(club, ACTION, CHANGES, club.now(NAMES))
    (club.path / "fixtures.csv").write_text("date\n2027-03-21\n")
    before = club.now()

    with pytest.raises(ChangedMeanwhileError, match=r"\+2027-03-21"):
        step_back(club, EARLY)

    assert club.now() == before


def test_an_edit_by_hand_is_a_version_once_something_is_applied_over_it(club):
    toml = club.path / "season.toml"
    toml.write_text(f"# mine\n{toml.read_text()}")

    commit(club, ACTION, CHANGES, club.now(NAMES))

    with opened(club.history) as history:
        kept = next(each for each in history.versions() if each.action == BY_HAND)
        assert history.state(kept.id)["season.toml"].startswith(b"# mine\n")


def test_restoring_a_version_leaves_what_was_done(club):
    first = club.now(NAMES)
    commit(club, ACTION, CHANGES, first)
    done = club.path / "done.csv"
    done.write_text("date,what,minutes\n2027-02-02,sprint,20\n")
    with opened(club.history) as history:
        planned = next(each for each in history.versions() if each.action == "plan")

    restore(club, planned, EARLY)

    assert club.now(NAMES) == first
    assert "sprint,20" in done.read_text()


def test_after_an_undo_another_change_ends_what_could_be_done_again(club):
    commit(club, ACTION, CHANGES, club.now(NAMES))
    step_back(club, EARLY)
    commit(club, ACTION, {"plan.json": b"{}\n"}, club.now(NAMES))

    assert step_on(club, EARLY) is None
