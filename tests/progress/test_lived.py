"""The season as it was lived: what was done counts where it was planned."""

import datetime as dt

import pytest

from optimiser.domain.quality import Dose
from optimiser.progress.against import against
from optimiser.progress.carry_on import with_planned_past
from optimiser.progress.done_session import DoneSession
from optimiser.progress.lived import live, weeks_decided
from optimiser.progress.recorded import squad_records
from optimiser.response.readiness import kernel
from optimiser.review.score import quality_curve, readiness, training_load
from tests.done_days import lived_after, record


@pytest.fixture(scope="module")
def season(minimal):
    return minimal.season


@pytest.fixture(scope="module")
def plan(season, plain_plan):
    return plain_plan(season, rung=1, dose=Dose.REDUCED)


def kernel_readiness(season, plan):
    """Readiness by the tables of the solver, as floats."""
    made = kernel(season)
    weeks = len(season.weeks)
    curves = []
    for quality, points in enumerate(made.points):
        curve = list(made.background[quality])
        for past in range(weeks):
            rung, dose = plan.rungs[quality][past], plan.doses[quality][past]
            if rung is not None:
                for week in range(past, weeks):
                    curve[week] += points[week - past, rung, dose]
        curves.append(curve)
    return [
        sum(share * curve[week] for share, curve in zip(made.shares, curves, strict=True))
        for week in range(weeks)
    ]


def test_without_a_record_all_went_as_planned(season, plan):
    found = lived_after(season, plan, 6)

    assert (found.plan, found.season, found.weeks) == (plan, season, 6)


@pytest.mark.parametrize(
    ("day", "records", "weeks"),
    [(0, (), 0), (6, (), 0), (7, (), 1), (9, (0,), 1), (9, (0, 1), 2), (500, (), 14), (-9, (), 0)],
)
def test_a_week_is_decided_once_it_is_over_or_something_of_it_is_recorded(
    season, day, records, weeks
):
    today = season.weeks[0].monday + dt.timedelta(days=day)
    made = [record(season, week, "sprint", dose="full") for week in records]

    assert weeks_decided(season, today, made) == weeks


@pytest.mark.parametrize(
    ("share", "dose"),
    [(0, Dose.NONE), (0.05, Dose.TOUCH), (0.5, Dose.TOUCH), (0.75, Dose.REDUCED), (4, Dose.FULL)],
)
def test_minutes_become_the_nearest_dose(season, plan, share, dose):
    minutes = share * season.qualities[0].minutes(Dose.FULL, plan.rungs[0][2])

    found = lived_after(season, plan, 6, [record(season, 2, "sprint", minutes=minutes, rpe=7)])

    assert found.plan.doses[0][2] is dose


def test_two_short_sessions_of_a_week_are_one_dose(season, plan):
    full = season.qualities[0].minutes(Dose.FULL, plan.rungs[0][2])
    one = record(season, 2, "sprint", minutes=full / 2)
    other = one.model_copy(update={"date": one.date + dt.timedelta(days=2)})

    found = lived_after(season, plan, 6, [one, other])

    assert found.plan.doses[0][2] is Dose.FULL


@pytest.mark.parametrize("rpe", [4, 9])
def test_the_real_load_counts_in_the_week_and_harder_work_tires_more(season, plan, rpe):
    quality = season.qualities[0]
    minutes = quality.minutes(Dose.REDUCED, plan.rungs[0][2])
    usual = quality.doses.reduced.rpe

    found = lived_after(season, plan, 6, [record(season, 2, "sprint", minutes=minutes, rpe=rpe)])

    load = training_load(found.season, found.plan, 2) + found.season.weeks[2].fixed_load
    planned = training_load(season, plan, 2) + season.weeks[2].fixed_load
    assert load - planned == round(minutes * rpe) - quality.load(Dose.REDUCED, plan.rungs[0][2])
    before, now = quality_curve(season, plan, 0), quality_curve(found.season, found.plan, 0)
    assert (now[2] < before[2]) == (rpe > usual)


def test_more_practice_than_planned_costs_more_the_more_it_is(season, plan):
    ready = [
        readiness(found.season, found.plan)[0][2]
        for load in (season.weeks[2].practice_load, 1500, 3000)
        for found in [lived_after(season, plan, 6, [record(season, 2, "practice", load=load)])]
    ]

    assert ready[0] == readiness(season, plan)[0][2]
    assert ready[0] > ready[1] > ready[2]


def test_match_minutes_that_were_played_take_the_place_of_the_planned(season, plan):
    fixture = season.fixtures[0]
    played = DoneSession(date=fixture.date, what="match", minutes=20, rpe=6)
    week = next(week.index for week in season.weeks if fixture in week.fixtures)

    found = live(season, plan, [played], fixture.date + dt.timedelta(days=7))

    assert found.season.weeks[week].fixtures[0].minutes == 20
    assert found.season.weeks[week].match_load == 120


def test_solver_tables_and_plain_scores_agree_on_a_season_that_was_lived(season, plan):
    records = [
        record(season, 1, "sprint", minutes=55, rpe=9),
        record(season, 2, "power", dose="none"),
        record(season, 3, "max_strength", sets=4),
        record(season, 3, "practice", load=2400),
        record(season, 4, "match", minutes=70, rpe=8),
    ]
    found = lived_after(season, plan, 8, records)

    told = readiness(found.season, found.plan)[0]

    assert found.season.surplus
    assert found.season.outside
    assert told == pytest.approx(kernel_readiness(found.season, found.plan), abs=1e-9)


def test_work_in_a_closed_week_counts_though_the_plan_has_no_place_for_it(impossible, plain_plan):
    season = impossible.season
    plan = plain_plan(season)
    week = next(each.index for each in season.weeks if each.closed)

    found = lived_after(season, plan, week + 2, [record(season, week, "sprint", minutes=30, rpe=8)])

    assert found.plan == plan
    assert found.season.weeks[week].fixed_load == season.weeks[week].fixed_load + 240
    assert readiness(found.season, plan)[0][-1] != readiness(season, plan)[0][-1]


def test_the_squad_is_the_middle_of_its_athletes_and_not_one_of_them(season, plan):
    day = season.weeks[2].monday
    three = [
        DoneSession(date=day, who=who, what="practice", minutes=60, rpe=rpe)
        for who, rpe in (("Aune", 3), ("Birk", 5), ("Cai", 9))
    ]
    alone = DoneSession(date=day, who="Cai", what="sprint", minutes=60, rpe=9)

    found = lived_after(season, plan, 6, [*three, alone])

    assert found.season.weeks[2].practice_load == 300
    assert found.plan == plan


@pytest.mark.parametrize(("squad", "counts"), [(0, True), (7, True), (8, False), (25, False)])
def test_what_two_of_a_large_squad_did_is_theirs_alone(season, squad, counts):
    records = [record(season, 1, "sprint", who=who, dose="none") for who in ("Ada", "Bo")]

    found = squad_records(records, squad)

    assert bool(found) is counts


def test_planned_stands_beside_done_after_a_new_plan_was_made(season, plan, plain_plan):
    lived = lived_after(season, plan, 6, [record(season, 2, "sprint", dose="none")])
    new = plain_plan(season, rung=2, dose=Dose.FULL)
    chosen = with_planned_past(lived.plan, new, 6)

    kept = with_planned_past(plan, chosen, 6)

    assert [row[:6] for row in kept.doses] == [row[:6] for row in plan.doses]
    assert [row[6:] for row in kept.doses] == [row[6:] for row in new.doses]
    assert 6 in kept.starts
    found = against(season, kept, lived_after(season, kept, 6, [
        record(season, 2, "sprint", dose="none")
    ]))  # fmt: skip
    assert [(cell.week, cell.quality) for week in found.weeks for cell in week.cells] == [(2, 0)]
