import json
import pickle

import pytest
from batch_cases import small_case, small_season

from optimiser.batch.job import job_of
from optimiser.batch.row import Result


def renamed(season):
    weeks = tuple(
        week.model_copy(
            update={
                "fixtures": tuple(f.model_copy(update={"opponent": "X"}) for f in week.fixtures)
            }
        )
        for week in season.weeks
    )
    return season.model_copy(update={"name": "Another", "sport": "y", "weeks": weeks})


def test_names_of_clubs_and_opponents_do_not_make_another_solve():
    season = small_season()

    assert small_case(season=season).key == small_case(season=renamed(season)).key


def test_a_parameter_written_out_at_its_default_is_the_same_solve():
    assert small_case(tables={"load_ramp": {"percent": 20}}).key == small_case().key


@pytest.mark.parametrize(
    "other",
    [
        {"tables": {"load_ramp": {"percent": 21}}},
        {"tables": {"revisit": {"use": False}}},
        {"seed": 1},
        {"versions": {"ortools": "9.99"}},
        {"season": small_season(low=4)},
        {"season": small_season(weeks=9)},
    ],
)
def test_anything_that_may_change_the_plan_is_another_solve(other):
    assert small_case(**other).key != small_case().key


def test_only_text_goes_to_a_worker():
    job = job_of(small_case())

    assert pickle.loads(pickle.dumps(job)) == job
    assert len(json.loads(job.season)["weeks"]) == 8
    assert {type(value) for value in vars(job).values()} <= {str, int, type(None)}


def test_a_row_bears_the_names_of_its_case():
    row = small_case("Club", rules="strict", seed=7).row(Result(status="clash", why_not="w"))

    assert (row.season, row.rules, row.seed, row.file) == ("Club", "strict", 7, "Club.toml")
    assert (row.status, row.why_not, row.planned) == ("clash", "w", False)
