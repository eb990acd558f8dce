"""What an ended `new` left beside its place goes with the next one; nothing else does."""

import os

import pytest

from cli.season.made import make_folder
from tests.season.killed import KILLED, ended_at

SEASON = 'name = "Club"\nfirst_monday = 2027-02-01\nweeks = 8\n'


def hidden(folder):
    return sorted(path.name for path in folder.iterdir() if path.name.startswith("."))


def test_what_an_ended_new_left_goes_with_the_next_one(tmp_path):
    place = tmp_path / "club"
    for point in (1, 2, 3, 5):
        assert ended_at(point, lambda: make_folder(place, SEASON, None)) == KILLED
    assert len(hidden(tmp_path)) >= 1

    make_folder(place, SEASON, None)
    assert hidden(tmp_path) == []
    assert (place / "season.toml").read_text() == SEASON


@pytest.mark.parametrize("kind", ["in use", "another's", "other name", "not signed", "a file"])
def test_what_is_not_surely_left_stays(tmp_path, kind):
    number = os.getpid() if kind == "in use" else 2**22 + 1
    name = ".other.abcdefgh" if kind == "other name" else ".club.abcdefgh"
    if kind == "a file":
        (tmp_path / name).write_text("mine")
    else:
        (tmp_path / name).mkdir()
        if kind != "not signed":
            sign = f"{os.uname().nodename} {number}\n"
            (tmp_path / name / "being-made").write_text(sign)
        if kind == "another's":
            (tmp_path / name / "letters.txt").write_text("mine")

    make_folder(tmp_path / "club", SEASON, None)
    assert hidden(tmp_path) == [name]
