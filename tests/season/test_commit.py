"""Files of a folder are written together: whatever ends it, a whole state is left."""

import datetime as dt
import os
import shutil

import pytest

from cli.season import commit as module
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
from cli.season.history import BY_HAND, History, opened
from tests.season.conftest import invoke

CHANGES = {"season.toml": b"name = 'new'\n", "fixtures.csv": b"date\n", "plan.json": b"{}\n"}
NAMES = list(CHANGES)
EARLY = dt.date(2027, 1, 30)
ACTION = Action("whatif", "a test")
#: Places at which a write can be ended: around each file, around each note in the history.
POINTS = range(1, 16)


def changed(folder):
    commit(folder, ACTION, CHANGES, folder.now(NAMES))


def ended_at(point, folder, act=changed):
    """Act in a process that is gone, without a word, at its ``point``-th step."""
    child = os.fork()
    if child:
        return os.WEXITSTATUS(os.waitpid(child, 0)[1])
    steps = iter(range(1, 1000))

    def watched(real):
        def call(*arguments):
            if next(steps) == point:
                os._exit(9)
            made = real(*arguments)
            if next(steps) == point:
                os._exit(9)
            return made

        return call

    try:
        os.replace = watched(os.replace)
        History.begin = watched(History.begin)
        History.stands = watched(History.stands)
        History.add = watched(History.add)
        module._written = watched(module._written)
        act(folder)
    finally:
        os._exit(0)


@pytest.mark.parametrize("point", POINTS)
def test_a_write_that_is_killed_leaves_a_whole_state(club, point):
    before = club.now(NAMES)

    code = ended_at(point, club)

    open_folder(club.path)
    after = club.now(NAMES)
    assert after in (before, CHANGES)
    assert code == 9 or after == CHANGES
    with opened(club.history) as history:
        assert history.pending() is None
        assert {name: history.state(history.current())[name] for name in NAMES} == after


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
    before = club.now()
    whole = Folder(tmp_path / "whole")
    shutil.copytree(club.path, whole.path)
    it(whole)
    after = whole.now()
    assert after != before

    for point in POINTS[::3]:
        place = Folder(tmp_path / f"at{point}")
        shutil.copytree(club.path, place.path)
        code = ended_at(point, place, it)
        open_folder(place.path)

        assert place.now() in (before, after), f"at step {point}"
        assert code == 9 or place.now() == after
        with opened(place.history) as history:
            assert history.pending() is None
            state = history.state(history.current())
        assert {name: state.get(name) for name in NAMES} == place.now(NAMES)
        it(place)  # what was cut off can be asked for again, and twice does no harm
        if act == "an import":
            assert place.now() == after


def test_the_points_reach_from_before_the_first_step_to_after_the_last(club):
    assert ended_at(POINTS[0], club) == 9
    assert ended_at(POINTS[-1] + 10, club) == 0


def test_a_file_changed_by_somebody_else_is_not_overwritten_and_the_difference_is_shown(club):
    seen = club.now(NAMES)
    mine = club.path / "fixtures.csv"
    mine.write_text(mine.read_text() + "2027-04-12,19:30,Ellerby,low,\n")
    before = club.now()

    with pytest.raises(ChangedMeanwhileError, match=r"\+2027-04-12,19:30,Ellerby"):
        commit(club, ACTION, CHANGES, seen)

    assert club.now() == before


def test_what_somebody_writes_into_a_broken_off_write_is_left_and_told(club, capsys):
    ended_at(5, club)
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
