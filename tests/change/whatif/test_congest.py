import datetime as dt
import json
from itertools import pairwise

import pytest
from click.testing import CliRunner

from cli.main import main
from optimiser.change.apply import apply_edits
from optimiser.change.congest import Draw, Drawn, draw_futures, spread_rounds
from optimiser.change.congest_report import FutureOutcome, report, spread
from optimiser.domain.edits import Add, Drop, Move
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.setup_error import SetupError

D = dt.date


def drawn(season, **settings):
    return draw_futures(season, Draw(**{"futures": 30, "rounds": (), "postpone": 0.0, **settings}))


@pytest.fixture(scope="module")
def rounds(minimal):
    return spread_rounds(minimal.season, 3)


def test_the_same_seed_draws_the_same_and_more_futures_begin_alike(minimal, rounds):
    few = drawn(minimal.season, rounds=rounds, postpone=0.2, futures=5)
    many = drawn(minimal.season, rounds=rounds, postpone=0.2, futures=20)

    assert many[:5] == few
    assert len(set(map(str, many))) > 1


def test_another_seed_draws_others(minimal, rounds):
    here = drawn(minimal.season, rounds=rounds, postpone=0.2)
    there = drawn(minimal.season, rounds=rounds, postpone=0.2, seed=1)

    assert here != there


def test_the_first_round_is_always_played_and_a_round_needs_the_one_before(minimal, rounds):
    futures = drawn(minimal.season, rounds=rounds, through=0.5, futures=200)

    counts = [future.rounds for future in futures]
    assert set(counts) == {1, 2, 3}
    assert 70 < counts.count(1) < 130


def test_nobody_gets_through_with_no_chance_and_all_do_with_every(minimal, rounds):
    none = drawn(minimal.season, rounds=rounds, through=0.0)
    every = drawn(minimal.season, rounds=rounds, through=1.0)

    assert {future.rounds for future in none} == {1}
    assert {future.rounds for future in every} == {3}


def test_postponed_matches_go_to_free_midweek_days(minimal):
    futures = drawn(minimal.season, postpone=0.3, futures=40)

    for future in futures:
        changed = apply_edits(minimal.scenario, minimal.season, future.edits)
        days = [fixture.date for fixture in changed.season.fixtures]
        new = [there for _, there in future.put_off if there is not None]
        assert all(day.weekday() in (1, 2, 3) for day in new)
        assert all((b - a).days >= 2 for a, b in pairwise(days))
        assert all(there > here for here, there in future.put_off if there is not None)


def test_a_match_put_off_past_the_last_midweek_is_not_played(minimal):
    last = minimal.season.fixtures[-1].date

    futures = drawn(minimal.season, postpone=1.0, futures=1)

    assert (last, None) in futures[0].put_off
    assert Drop(date=last) in futures[0].edits


def test_a_season_of_one_match_keeps_it(short):
    only = short.season.model_copy(
        update={
            "weeks": tuple(
                week.model_copy(update={"fixtures": week.fixtures[-1:] if week.index == 6 else ()})
                for week in short.season.weeks
            )
        }
    )

    assert drawn(only, postpone=1.0, futures=1)[0].edits == ()


def test_indoor_competitions_are_never_put_off(minimal):
    futures = drawn(minimal.season, postpone=1.0, indoors=frozenset({""}))

    assert all(future.edits == () for future in futures)


def test_rounds_are_spread_over_free_wednesdays(minimal, rounds):
    taken = {fixture.date for fixture in minimal.season.fixtures}

    assert [fixture.date.weekday() for fixture in rounds] == [2, 2, 2]
    assert not taken & {fixture.date for fixture in rounds}


def test_more_rounds_than_wednesdays_are_refused(short):
    with pytest.raises(SetupError, match="at most the free Wednesdays"):
        spread_rounds(short.season, 9)


def test_a_round_on_a_match_day_is_refused(minimal):
    day = minimal.season.fixtures[0].date

    with pytest.raises(SetupError, match="cup round 1: must be on a day without a fixture"):
        drawn(minimal.season, rounds=(Fixture(date=day),))


def test_a_round_outside_the_season_is_refused(minimal):
    with pytest.raises(SetupError, match="must lie in the season"):
        drawn(minimal.season, rounds=(Fixture(date=D(2030, 1, 1)),))


def test_a_spread_is_between_its_least_and_its_most():
    found = spread([90.0, 80.0, 100.0])

    assert (found.least, found.middle, found.count) == (80.0, 90.0, 3)
    assert found.least <= found.low <= found.middle <= found.high
    assert spread([]) is None


def lived(season, plan, drawn_, pairs, status="planned"):
    return FutureOutcome(drawn_, season, pairs, status, plan if status == "planned" else None)


def test_the_report_counts_clashes_and_lost_peaks(short, short_plan):
    season = short.season
    pairs = tuple((fixture, fixture) for fixture in season.fixtures)
    peak = season.fixtures[-1]
    gone = apply_edits(short.scenario, season, [Drop(date=peak.date)])
    futures = [
        lived(season, short_plan, Drawn(1, (), ()), pairs),
        lived(season, short_plan, Drawn(2, (), ()), pairs, status="clash"),
        lived(gone.season, short_plan, Drawn(1, ((peak.date, None),), ()), gone.pairs),
    ]

    told = report(season, short_plan, futures, (), 3)

    assert (told.clashes, told.unknown, told.futures) == (1, 0, 3)
    assert told.fixtures[0].fixture.priority is Priority.HIGH
    assert told.fixtures[0].not_played == 1
    assert told.fixtures[0].spread.count == 1


def test_a_season_without_a_high_fixture_has_no_rows_of_them(short, short_plan):
    scenario = short.scenario
    flat = apply_edits(scenario, short.season, [Drop(date=short.season.fixtures[-1].date)])

    told = report(flat.season, short_plan, [], (), 0)

    assert told.fixtures == ()


def test_equal_futures_are_planned_once_and_the_spread_is_told(short_file):
    result = CliRunner().invoke(
        main,
        ["whatif", str(short_file), "--congest", "--futures", "6", "--rounds", "1",
         "--postpone", "0", "--jobs", "1", "--format", "json"],
    )  # fmt: skip

    data = json.loads(result.stdout)
    assert result.exit_code == 0, result.output
    assert (data["futures"], data["distinct"], data["clashes"]) == (6, 1, 0)
    assert data["fixtures"][0]["spread"]["count"] == 6
    assert data["fixtures"][0]["spread"]["least"] == data["fixtures"][0]["spread"]["high"]


def test_added_rounds_are_edits_of_their_own(minimal, rounds):
    future = drawn(minimal.season, rounds=rounds, through=0.0, postpone=1.0, futures=1)[0]

    kinds = [type(edit) for edit in future.edits]
    assert kinds.count(Add) == 1
    assert kinds.count(Move) >= 1
