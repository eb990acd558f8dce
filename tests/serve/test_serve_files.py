"""Saving: comments and the fixtures file stay, and nothing is written over unseen."""

import datetime as dt
import time
from dataclasses import replace

import pytest
from small_season import FIXTURES, SCENARIO

from cli.files.errors import InputError
from cli.files.scenario_file import read_scenario
from cli.season.made import make_folder
from cli.serve.asking import week
from cli.serve.finding import Planned
from cli.serve.keeping import NotNowError
from cli.serve.opening import open_season
from cli.serve.session import Session
from cli.serve.view.state import page_state
from optimiser.days.holds import DayHold
from optimiser.domain.edits import Describe, Move, Rank

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


def test_a_plan_is_proven_from_the_page_and_a_poorer_answer_is_not_taken(session):
    plan = session.here.plan
    session.prove()
    settled(session)
    proven = session.here
    session._planned(Planned(plan, replace(proven.verdict, gap=0.5), provisional=True))

    assert proven.proof == "proven best"
    assert session.here is proven
    assert not session.here.provisional


# --- a season in progress -------------------------------------------------------------------


@pytest.fixture
def under_way(planned, tmp_path):
    """A season folder with a plan in force, four weeks into it."""
    folder = tmp_path / "club"
    make_folder(folder, SCENARIO, ("list.csv", FIXTURES.encode()))
    (folder / "plan.json").write_bytes(planned.with_suffix(".plan.json").read_bytes())
    day = dt.date(2027, 3, 3)
    made = Session(open_season(folder / "season.toml", day), lambda: day)
    yield made
    made.close()


def test_weeks_that_are_over_stand_and_what_was_done_is_set_against_the_plan(under_way):
    before = page_state(under_way)
    under_way.record({"date": "2027-02-16", "what": "sprint", "dose": "none"})
    after = page_state(under_way)
    sprint = next(row for row in after["qualities"] if row["key"] == "sprint")
    with pytest.raises(InputError, match="before today"):
        under_way.edit([Move(date=dt.date(2027, 3, 6), to=dt.date(2027, 3, 2))])

    assert before["over"] == after["over"] == 4
    assert before["today"] == "2027-03-03"
    assert sprint["cells"][2]["done"] == "nothing"
    assert after["weeks"][2]["done"]["recorded"]
    assert not after["weeks"][1]["done"]["recorded"]
    assert after["versions"][0]["action"] == "done"
    under_way.undo()
    assert "2027-02-16" not in (under_way.loaded.path.parent / "done.csv").read_text()


def test_a_change_in_mid_season_leaves_the_past_and_is_one_version(under_way):
    past = [week.qualities for week in under_way.base.document.weeks[:4]]
    under_way.edit([MOVE])
    settled(under_way)
    under_way.save()

    assert [week.qualities for week in under_way.base.document.weeks[:4]] == past
    assert under_way.files.versions[-1].words == "Match of Sat 13 Mar moved to Wed 10 Mar"
    under_way.undo()
    assert under_way.loaded.season.fixtures[1].date == dt.date(2027, 3, 13)


def test_a_session_put_on_another_day_is_kept_and_taken_back(under_way):
    before = week(under_way, 6)["days"]
    place = next(at for at, day in enumerate(before) if day["sessions"])
    thing = before[place]["sessions"][0]["place"]
    free = next(at for at, day in enumerate(before) if not day["sessions"] and day["label"] != "MD")
    under_way.place(6, [DayHold(thing, place, False), DayHold(thing, free, True)])
    after = week(under_way, 6)

    assert after["held"]
    assert thing in [each["place"] for each in after["days"][free]["sessions"]]
    assert thing not in [each["place"] for each in after["days"][place]["sessions"]]
    under_way.undo()
    assert week(under_way, 6)["days"] == before
