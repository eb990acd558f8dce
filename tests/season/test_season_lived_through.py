"""One invented season from its first week to its last: nothing is lost and no past is changed.

``python -m tests.benchmarks.lived_season`` lives all of its 50 weeks, with all qualities and whole
searches.
"""

import json
from functools import partial

import pytest

import cli.solving
from optimiser.joint_model.effort import Settings
from tests.season.lived_season import SQUAD, WEEKS, live_season

#: Weeks that it is lived in here.
SHORT = 20


@pytest.fixture(scope="module")
def club(tmp_path_factory):
    """The season after all that happened in it, with short searches."""
    short = partial(Settings, quick=True, workers=1, close=0.1)
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(cli.solving, "Settings", short)
        yield live_season(tmp_path_factory.mktemp("lived"), SHORT)


def test_every_version_can_be_told_apart_and_put_back(club):
    plan = club.folder.plan.read_bytes()

    listed = club.run(WEEKS, "versions").stdout
    club.run(WEEKS, "versions", "--compare", 2, 6)
    club.run(WEEKS, "versions", "--restore", 3)
    club.run(WEEKS, "undo")

    assert listed.count("replan") == 3
    assert "the final on Wednesday" in listed
    assert "by hand" in listed
    assert club.folder.plan.read_bytes() == plan


def test_what_was_done_stands_against_what_was_planned_at_first(club):
    told = json.loads(club.run(WEEKS, "done", "--format", "json").stdout)

    weeks = told["weeks"]
    assert len(weeks) == SHORT
    ill, long = (weeks[club.story.week(told) - 1] for told in (9, 14))
    assert {"power", "sprint"} <= set(ill["otherwise"])
    assert long["load_done"] > long["load_planned"]
    assert len(told["records"]) == len(club.lines) + 3


def test_files_that_people_keep_are_as_they_left_them(club):
    path = club.folder.path

    assert (path / "squad.csv").read_text() == SQUAD
    head = (path / "fixtures.csv").read_text().splitlines()[0]
    assert head == "date;kickoff;opponent;priority;bus"
    assert "\nBirk," in (path / "availability.csv").read_text()
