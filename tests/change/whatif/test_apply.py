import datetime as dt

import pytest

from optimiser.change.apply import apply_edits
from optimiser.domain.edits import (
    Add,
    Close,
    Drop,
    Move,
    Open,
    PinChoice,
    Rank,
    RuleOff,
    RuleOn,
    Set,
)
from optimiser.domain.edits.work import EditError
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.scenario import Scenario
from optimiser.setup.build import build_season

D = dt.date
TOLLAND, ASHBY = D(2026, 10, 24), D(2026, 12, 30)


def made(loaded, *edits):
    return apply_edits(loaded.scenario, loaded.season, edits)


def test_a_moved_fixture_keeps_all_but_its_day(winter):
    was = winter.season.fixtures[0]

    changed = made(winter, Move(date=TOLLAND, to=D(2026, 10, 28)))

    now = changed.season.fixtures[0]
    assert now == was.model_copy(update={"date": D(2026, 10, 28)})
    assert changed.pairs[0] == (was, now)


def test_a_move_over_the_clock_change_counts_dates_and_not_hours(winter):
    changed = made(winter, Move(date=TOLLAND, to=D(2026, 10, 25)))

    weeks = [week.index for week in changed.season.weeks if week.fixtures]
    assert weeks[0] == 2
    assert changed.season.fixtures[0].kickoff == dt.time(15)


def test_week_53_is_one_week_across_the_year_end(winter):
    changed = made(winter, Move(date=ASHBY, to=D(2027, 1, 3)))

    week = next(w for w in changed.season.weeks if w.monday == D(2026, 12, 28))
    assert [f.date for f in week.fixtures] == [D(2027, 1, 3)]
    assert changed.season.weeks[week.index + 1].monday == D(2027, 1, 4)


def test_a_fixture_is_not_moved_onto_another(winter):
    with pytest.raises(EditError) as refused:
        made(winter, Move(date=TOLLAND, to=ASHBY))

    error = refused.value
    assert (error.edit, error.where) == (0, "to")
    assert "Ashby Vale" in error.got
    assert error.must == "must be a day without a fixture"


def test_two_fixtures_change_places_by_way_of_a_free_day(winter):
    spare = D(2026, 12, 1)

    changed = made(
        winter,
        Move(date=TOLLAND, to=spare),
        Move(date=ASHBY, to=TOLLAND),
        Move(date=spare, to=ASHBY),
    )

    assert [f.opponent for f in changed.season.fixtures] == ["Ashby Vale", "Tolland"]


def test_a_move_out_of_the_season_is_refused(winter):
    with pytest.raises(EditError, match="must lie in the season, 2026-10-05 to 2027-01-10"):
        made(winter, Move(date=TOLLAND, to=D(2027, 1, 11)))


def test_an_unknown_day_is_answered_with_the_nearest_fixture(winter):
    with pytest.raises(EditError) as refused:
        made(winter, Drop(date=D(2026, 10, 23)))

    assert refused.value.do == "the nearest one is on 2026-10-24"


def test_the_last_fixture_cannot_be_dropped(winter):
    with pytest.raises(EditError, match="must leave a fixture") as refused:
        made(winter, Drop(date=TOLLAND), Drop(date=ASHBY))

    assert refused.value.edit == 1


def test_added_and_ranked_fixtures_are_in_the_season(winter):
    changed = made(
        winter,
        Add(date=D(2026, 12, 16), opponent="Loxley", priority="medium"),
        Rank(date=TOLLAND, priority="medium"),
    )

    kinds = {f.opponent: f.priority for f in changed.season.fixtures}
    assert kinds["Loxley"] is Priority.MEDIUM
    assert kinds["Tolland"] is Priority.MEDIUM
    assert changed.pairs[-1][0] is None


def test_an_override_of_the_scenario_does_not_undo_a_rank(winter):
    scenario = winter.scenario.model_copy(update={"priorities": {TOLLAND: Priority.HIGH}})

    changed = apply_edits(scenario, winter.season, [Rank(date=TOLLAND, priority="low")])

    assert changed.season.fixtures[0].priority is Priority.LOW


def test_closed_days_close_the_week(winter):
    changed = made(winter, Close(first=D(2026, 11, 30), last=D(2026, 12, 6), note="Pitch"))

    closed = [week.number for week in changed.season.weeks if week.closed]
    assert closed == [5, 6, 7, 9]


def test_opened_days_split_a_break(winter):
    changed = made(winter, Open(first=D(2026, 11, 9), last=D(2026, 11, 15)))

    closed = [week.number for week in changed.season.weeks if week.closed]
    rests = [(b.first, b.last) for b in changed.scenario.breaks if b.kind == "rest"]
    assert closed == [5, 7]
    assert rests == [(D(2026, 11, 2), D(2026, 11, 8)), (D(2026, 11, 16), D(2026, 11, 22))]


def test_opening_exam_days_lifts_their_limit(winter):
    before = winter.season.weeks[9].session_limit

    changed = made(winter, Open(first=D(2026, 12, 7), last=D(2026, 12, 13)))

    assert before is not None
    assert changed.season.weeks[9].session_limit is None


def test_opening_days_that_are_open_is_refused(winter):
    with pytest.raises(EditError, match="must touch a break of rest or exams"):
        made(winter, Open(first=D(2026, 10, 5), last=D(2026, 10, 11)))


def test_rules_are_set_dropped_and_taken_up_again(winter):
    changed = made(
        winter,
        Set(rule="progression", parameter="up", value=2),
        RuleOff(rule="revisit"),
        RuleOff(rule="budget"),
        RuleOn(rule="budget", parameters={"price": 5}),
        PinChoice(week=3, quality="sprint", dose="touch"),
    )

    assert changed.scenario.rules == {
        "progression": {"up": 2},
        "revisit": {"use": False},
        "budget": {"price": 5},
        "pin": {"choices": [{"week": 3, "quality": "sprint", "dose": "touch"}]},
    }


def test_a_parameter_set_to_nothing_is_as_usual_again(winter):
    latest = Set(rule="spacing", parameter="latest", value="18:00")

    changed = made(winter, latest, latest.model_copy(update={"value": None}))

    assert changed.scenario.rules["spacing"] == winter.scenario.rules.get("spacing", {})


def test_one_entry_of_a_table_is_set_and_the_others_stay(winter):
    usual = {"exposure": {"gap_weeks": {"sprint": 1, "power": 2}}}
    edit = Set(rule="exposure", parameter="gap_weeks.sprint", value=3)

    changed = apply_edits(winter.scenario, winter.season, [edit], usual)

    assert changed.scenario.rules["exposure"]["gap_weeks"] == {"sprint": 3, "power": 2}
    assert usual["exposure"]["gap_weeks"]["sprint"] == 1


def test_edits_leave_the_scenario_they_came_from_alone(winter):
    before = winter.scenario.model_dump()

    made(winter, Set(rule="taper", parameter="apart", value=3), Drop(date=TOLLAND))

    assert winter.scenario.model_dump() == before


def test_several_matches_of_a_day_are_moved_and_ranked_together_and_stay_apart():
    day, later = D(2026, 10, 24), D(2026, 10, 25)
    scenario = Scenario(name="S", first_monday=D(2026, 10, 19), weeks=2)
    matches = [Fixture(date=day, kickoff=dt.time(hour), opponent=f"{hour}") for hour in (10, 12)]
    season = build_season(scenario, matches)

    edits = [Move(date=day, to=later), Rank(date=later, priority=Priority.HIGH)]
    changed = apply_edits(scenario, season, edits)

    assert [(each.opponent, each.date) for each in changed.season.listed] == [
        ("10", later), ("12", later),
    ]  # fmt: skip
    assert {each.priority for each in changed.scenario.fixtures} == {Priority.HIGH}
