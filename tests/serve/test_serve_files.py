"""Saving: comments and the fixtures file stay, and nothing is written over unseen."""

import datetime as dt
import time

import pytest

from cli.files.scenario_file import read_scenario
from cli.serve.keeping import NotNowError
from cli.serve.opening import open_season
from cli.serve.session import Session
from optimiser.domain.changes import Describe, Move, Rank

DAY = dt.date(2027, 1, 4)
MOVE = Move(date=dt.date(2027, 3, 13), to=dt.date(2027, 3, 10))


@pytest.fixture(scope="module")
def planned(small, tmp_path_factory):
    """A small season with its first plan saved beside it."""
    scenario = small(tmp_path_factory.mktemp("first"))
    session = begun(scenario)
    settled(session)
    session.save()
    session.close()
    return scenario


@pytest.fixture
def session(planned, small, tmp_path):
    scenario = small(tmp_path)
    plan = planned.with_suffix(".plan.json").read_bytes()
    scenario.with_suffix(".plan.json").write_bytes(plan)
    made = begun(scenario)
    yield made
    made.close()


def begun(scenario):
    return Session(open_season(scenario, DAY), lambda: DAY)


def settled(session):
    end = time.monotonic() + 90
    while session.solver.progress() is not None and time.monotonic() < end:
        time.sleep(0.02)


def test_a_save_keeps_comments_the_fixtures_file_and_its_other_columns(session):
    path = session.loaded.path
    before = path.read_text(encoding="utf-8")
    session.edit([MOVE, Describe(date=dt.date(2027, 3, 6), opponent="Ashford Town")])
    settled(session)
    unsaved = (path.parent / "list.csv").read_text(encoding="utf-8")
    session.save()
    listed = (path.parent / "list.csv").read_text(encoding="utf-8")

    assert "2027-03-13" in unsaved
    assert path.read_text(encoding="utf-8") == before
    assert "2027-03-10,15:00,Birchwood,League,away,medium," in listed
    assert "2027-03-06,15:00,Ashford Town,League,home,low,bring kit" in listed
    assert read_scenario(path).digest == session.loaded.digest
    assert session.steps.now == ()
    assert session.told.startswith("Saved")


def test_a_save_asked_for_while_a_plan_is_looked_for_waits_for_its_end(session):
    session.edit([MOVE])
    session.save()
    waited = session.saving or not session.steps.now
    settled(session)
    time.sleep(0.2)
    document = session.base.document

    assert waited
    assert session.steps.now == ()
    assert not session.base.provisional
    assert document.season.gap <= session.settings.close


def test_a_save_is_taken_back_by_undo(session):
    listed = session.loaded.path.parent / "list.csv"
    before = listed.read_text(encoding="utf-8")
    session.edit([Rank(date=dt.date(2027, 3, 20), priority="medium")])
    settled(session)
    session.save()
    changed = listed.read_text(encoding="utf-8")
    session.undo()

    assert changed != before
    assert listed.read_text(encoding="utf-8") == before
    assert session.solver.progress() is None


def test_what_somebody_else_wrote_meanwhile_is_shown_and_not_written_over(session):
    listed = session.loaded.path.parent / "list.csv"
    session.edit([MOVE])
    settled(session)
    theirs = f"{listed.read_text(encoding='utf-8')}2027-03-27,15:00,Elmstead,League,home,low,\n"
    listed.write_text(theirs, encoding="utf-8")
    with pytest.raises(NotNowError, match="somebody else") as refused:
        session.save()
    session.take_in()
    settled(session)

    assert "+2027-03-27,15:00,Elmstead" in refused.value.shown
    assert listed.read_text(encoding="utf-8") == theirs
    days = {fixture.date for fixture in session.here.season.fixtures}
    assert {dt.date(2027, 3, 27), dt.date(2027, 3, 10)} <= days
    session.save()
    assert "Elmstead" in listed.read_text(encoding="utf-8")
