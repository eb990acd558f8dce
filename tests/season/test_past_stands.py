"""No command that solves changes what is over: whatever was done, whatever is asked."""

import datetime as dt
import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cli.files.plan_json import read_document
from cli.files.scenario_file import read_scenario
from optimiser.domain.document import to_plan
from optimiser.review.audit import structure
from tests.season.conftest import invoke

FIRST = dt.date(2027, 2, 1)
WHAT = ("sprint", "power", "max_strength", "plyometrics", "practice", "match")
#: Commands that solve, with what makes them put their plan in force.
APPLIES = {
    "plan": ("plan", "--apply"),
    "whatif": ("whatif", "--move", "2027-04-10=2027-04-08", "--apply"),
    "close": ("whatif", "--close", "2027-03-29:2027-04-04", "--apply"),
    "replan": ("replan", "--apply", "A"),
    "added": ("replan", "--add", "2027-04-07:medium:Ellerby", "--apply", "A"),
}
#: Those that solve to tell, and may write nothing.
TELLS = {
    "audit": ("audit",),
    "why": ("why", "--quality", "sprint", "--week", "9", "--dose", "none"),
    "replan": ("replan",),
    "whatif": ("whatif", "--drop", "2027-04-03"),
}


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


@pytest.mark.parametrize("command", list(APPLIES))
@settings(
    max_examples=3, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(past=pasts())
def test_a_plan_that_is_put_in_force_keeps_the_past_and_the_record_of_it(club, command, past):
    today, done = past
    club.done.write_text(done)
    season = read_scenario(club.scenario).season
    before = to_plan(read_document(club.plan), season)
    shown = invoke("done", club.path, "--today", today, "--format", "json").stdout

    result = invoke(*APPLIES[command][:1], club.path, "--today", today, *APPLIES[command][1:])

    assert result.exit_code == 0, result.output
    after = to_plan(read_document(club.plan), read_scenario(club.scenario).season)
    assert over(after, weeks_over(today)) == over(before, weeks_over(today))
    assert club.done.read_text() == done
    again = invoke("done", club.path, "--today", today, "--format", "json").stdout
    assert json.loads(again)["weeks"] == json.loads(shown)["weeks"]
    invoke("undo", club.path)
    assert to_plan(read_document(club.plan), season) == before


@pytest.mark.parametrize("command", list(TELLS))
def test_what_only_tells_writes_nothing_and_speaks_of_weeks_to_come(club, command):
    club.done.write_text("date,what,dose\n2027-02-09,power,none\n2027-02-16,sprint,none\n")
    before = club.now()

    result = invoke(*TELLS[command][:1], club.path, "--today", "2027-03-10", *TELLS[command][1:])

    assert result.exit_code == 0 or "NOT FIT TO USE" in result.stdout, result.output
    assert club.now() == before
    told = result.stdout.split("Plan A")[-1] if command == "replan" else result.stdout
    assert not any(line.startswith(f"- Week {week} (") for line in told.splitlines()
                   for week in range(1, 6))  # fmt: skip


@pytest.mark.parametrize(
    "edit",
    [
        ("--move", "2027-03-20=2027-04-14"),
        ("--add", "2027-03-08"),
        ("--close", "2027-03-08:2027-03-21"),
        ("--pin", "2:sprint:S1"),
    ],
)
def test_a_change_of_what_is_over_is_refused(club, edit):
    before = club.now()

    result = invoke("whatif", club.path, "--today", "2027-03-24", *edit, "--apply")

    assert result.exit_code == 1
    assert "The past stands as it was" in result.stderr
    assert club.now() == before


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
