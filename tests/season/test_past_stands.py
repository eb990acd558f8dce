"""No command that solves changes what is over: whatever was done, whatever is asked."""

import datetime as dt
import json

import click
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from joblib import Parallel

from cli.files.plan_file import read_plan
from cli.files.plan_json import read_document
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import COMMANDS
from cli.season.argument import TODAY as TODAY_KEY
from cli.season.group_plans import group_progress
from cli.season.progress import progress
from optimiser.batch.engine import Crew
from optimiser.board.board import Board
from optimiser.domain.document import to_plan
from optimiser.explain.prices import price
from optimiser.groups.member import members_of
from optimiser.review.audit import structure
from tests.season.conftest import invoke
from tests.season.futures import FUTURES

FIRST = dt.date(2027, 2, 1)
WHAT = ("sprint", "power", "practice", "match")
#: Commands that put a plan in force, or can.
APPLIES = {
    "plan": ("plan", "--apply"),
    "whatif": ("whatif", "--move", "2027-04-10=2027-04-08", "--apply"),
    "close": ("whatif", "--close", "2027-03-29:2027-04-04", "--apply"),
    "replan": ("replan", "--apply", "A"),
    "added": ("replan", "--add", "2027-04-07:medium:Ellerby", "--apply", "A"),
}
#: Everything that searches for plans, each with the ways it does so.
SOLVES = {
    **APPLIES,
    "audit": ("audit",),
    "why": ("why", "--quality", "sprint", "--week", "9", "--dose", "full"),
    "trade": ("replan",),
    "dropped": ("whatif", "--drop", "2027-04-03"),
    "futures": ("plan", "--futures", "futures.toml"),
    "congest": ("whatif", "--congest", "--futures", 2, "--rounds", 1, "--jobs", 1),
    "sweep": ("sweep", "--grid", "session_caps.in_season.gym=1,2", "--jobs", 1),
    "batch": ("batch", "--jobs", 1),
    "prices": ("prices", "--processes", 1, "--fast"),
    "groups": ("groups", "--apply"),
}
#: The same where rules clash.
ARGUES = {
    "explain": ("explain",),
    "mended": ("explain", "--apply", 1),
    "nearest": ("plan",),
    "nearest again": ("replan", "--apply", "A"),
}
#: Of these, those that end with a nearest plan.
NEAREST = ("nearest", "nearest again")
#: Those that look for days, read, write or draw, and for no plan.
SEARCHES_NOT = {"new", "week", "club", "cards", "report", "done", "undo", "redo", "versions",
                "tests", "fit", "league", "rules"}  # fmt: skip
#: The page has sessions instead of options.
PAGE = "serve"


@st.composite
def pasts(draw):
    """Return a day in mid-season, and rows of what was done up to it."""
    today = FIRST + dt.timedelta(days=draw(st.integers(7, 55)))
    days = st.integers(0, (today - FIRST).days).map(lambda day: FIRST + dt.timedelta(days=day))
    rows = draw(
        st.lists(
            st.tuples(days, st.sampled_from(WHAT), st.integers(0, 120), st.integers(1, 10)),
            max_size=6,
        )
    )
    return today, "date,what,minutes,rpe\n" + "".join(
        f"{day},{what},{minutes},{rpe}\n" for day, what, minutes, rpe in rows
    )


def over(plan, weeks):
    rows = (*plan.rungs, *plan.doses, plan.field, plan.gym)
    return [row[:weeks] for row in rows]


def weeks_over(today):
    return (today - FIRST).days // 7


def test_every_command_is_known_to_search_or_not_to():
    assert {words[0] for words in (SOLVES | ARGUES).values()} | SEARCHES_NOT | {PAGE} == {*COMMANDS}
    assert not {words[0] for words in SOLVES.values()} & SEARCHES_NOT


#: Two weeks are over that break rules no plan can mend, and one has more than was planned.
WRECKED = "date,what,dose\n2027-02-09,power,none\n2027-02-16,sprint,none\n2027-03-03,power,full\n"
GROUPS = "\n[groups.starters]\n[groups.non-playing]\nmatch_share = 0\n"
#: Sprint cannot be back at the bottom while the final is tapered for.
CLASH = """
[rules.pin]
choices = [ { week = 8, quality = "sprint", band = "S1" } ]
"""
TODAY = "2027-03-10"


@pytest.fixture
def quick(club):
    """A season of two qualities in its sixth week, of which not all went as planned."""
    club.done.write_text(WRECKED)
    return club


@pytest.fixture
def found(monkeypatch):
    """Every plan that any search finds, as it is read from what a solver has found."""
    plans, read = [], Board.read

    def watched(board, values):
        plans.append(read(board, values))
        return plans[-1]

    monkeypatch.setattr(Board, "read", watched)
    # searches of many seasons are looked at in this process, those for prices are two
    monkeypatch.setattr(Crew, "parallel", lambda _: Parallel(1, return_as="generator"))
    speaking = price._speaking
    monkeypatch.setattr(price, "_speaking", lambda *season: speaking(*season)[:2])
    return plans


def plan_in(club):
    return to_plan(read_document(club.plan), read_scenario(club.scenario).season)


def stands(club):
    """Return what is over of the squad's season and of each group's, as it was done."""
    loaded = read_scenario(club.scenario)
    rules = read_rules(loaded)
    groups = loaded.scenario.groups
    members = members_of(loaded.season, rules, groups) if groups else []
    with click.Context(click.Command("today"), obj=None) as context:
        context.meta[TODAY_KEY] = dt.date.fromisoformat(TODAY)
        there = [progress(loaded, read_plan(club.plan, loaded, rules, other_season=True))]
        there += [group_progress(loaded, member, club.plan) for member in members]
    return [over(each.lived.plan, weeks_over(dt.date.fromisoformat(TODAY))) for each in there]


@pytest.mark.parametrize("name", [*SOLVES, *ARGUES])
def test_no_plan_that_any_command_looks_at_changes_what_is_over(quick, found, name, tmp_path):
    command, *options = (SOLVES | ARGUES)[name]
    added = CLASH if name in ARGUES else GROUPS if command == "groups" else ""
    quick.scenario.write_text(quick.scenario.read_text() + added)
    (tmp_path / "futures.toml").write_text(FUTURES.format(date="2027-03-31"))
    options = [tmp_path / each if each == "futures.toml" else each for each in options]
    past, before, planned = stands(quick), quick.now(), plan_in(quick)

    result = invoke(command, quick.path, "--today", TODAY, *options)

    assert result.exit_code == (3 if name in NEAREST else 0), result.output
    assert found, "no search was seen"
    weeks = weeks_over(dt.date.fromisoformat(TODAY))
    assert all(over(plan, weeks) in past for plan in found)
    assert "--apply" in options or quick.now() == before
    assert over(plan_in(quick), weeks) == over(planned, weeks)


@pytest.mark.parametrize("command", list(APPLIES))
@settings(
    max_examples=3, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(past=pasts())
def test_a_plan_that_is_put_in_force_keeps_the_past_and_the_record_of_it(quick, command, past):
    today, done = past
    quick.done.write_text(done)
    season = read_scenario(quick.scenario).season
    before = to_plan(read_document(quick.plan), season)
    shown = invoke("done", quick.path, "--today", today, "--format", "json").stdout

    result = invoke(*APPLIES[command][:1], quick.path, "--today", today, *APPLIES[command][1:])

    assert result.exit_code == 0, result.output
    after = to_plan(read_document(quick.plan), read_scenario(quick.scenario).season)
    assert over(after, weeks_over(today)) == over(before, weeks_over(today))
    assert quick.done.read_text() == done
    again = invoke("done", quick.path, "--today", today, "--format", "json").stdout
    assert json.loads(again)["weeks"] == json.loads(shown)["weeks"]
    invoke("undo", quick.path)
    assert to_plan(read_document(quick.plan), season) == before


@pytest.mark.parametrize(
    "edit",
    [
        ("--move", "2027-03-20=2027-04-14"),
        ("--add", "2027-03-08"),
        ("--close", "2027-03-08:2027-03-21"),
        ("--pin", "2:sprint:S1"),
    ],
)
def test_a_change_of_what_is_over_is_refused(quick, edit):
    before = quick.now()

    result = invoke("whatif", quick.path, "--today", "2027-03-24", *edit, "--apply")

    assert result.exit_code == 1
    assert "The past stands as it was" in result.stderr
    assert quick.now() == before


@pytest.mark.parametrize("back", [("undo",), ("versions", "--restore", 2)])
def test_an_older_plan_that_is_put_in_force_keeps_the_weeks_that_are_over(club, back):
    season = read_scenario(club.scenario).season
    first = to_plan(read_document(club.plan), season)
    invoke("whatif", club.path, "--today", "2027-02-02", "--pin", "3:sprint::touch", "--pin",
           "3:power::none", "--set", "exposure.use=false", "--apply")  # fmt: skip
    second = to_plan(read_document(club.plan), season)
    assert over(first, 4) != over(second, 4)

    result = invoke(*back[:1], club.path, "--today", "2027-03-01", *back[1:])

    assert result.exit_code == 0, result.output
    after = to_plan(read_document(club.plan), season)
    assert over(after, 4) == over(second, 4)
    assert [row[4:] for row in after.doses] == [row[4:] for row in first.doses]
    assert structure(season, after) == []
