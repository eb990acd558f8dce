"""Whatever its bytes are, a file is read, or refused in one line with its name."""

import datetime as dt

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from spoiled import refusal, spoiled

from cli.files.fit_csv import read_loads, read_tests
from cli.files.plan_csv import plan_csv
from cli.files.plan_file import read_plan
from cli.season.done_csv import read_done
from optimiser.domain.quality import Dose
from optimiser.review.describe import describe

TESTS = b"date,quality,result,athlete,load\n2026-01-05,power,41.5,Aune,\n2026-01-06,power,,,320\n"
LOADS = b"date,load,quality,athlete\n2026-01-05,320,power,Aune\n2026-01-06,0,,\n"
LAST = dt.date(2027, 4, 1)
DONE = (
    b"date,who,what,dose,band,minutes\n2027-02-10,Ane,sprint,full,S3,40\n2027-02-11,,power,none,,\n"
)


@pytest.fixture(scope="module")
def files(minimal, plain_plan, usual_rules):
    """Return, by the ending of a file, its whole bytes and how it is read."""
    plan = plain_plan(minimal.season, rung=1, dose=Dose.REDUCED)
    made = describe(
        minimal.season, plan, usual_rules, None, digest=minimal.digest, seed=0, versions={}
    )

    def reading(path):
        return read_plan(path, minimal, usual_rules, other_season=True)

    return {
        "plan.json": (made.model_dump_json().encode(), reading),
        "plan.csv": (plan_csv(made).encode(), reading),
        "done.csv": (DONE, lambda path: read_done(path, minimal.season, LAST)),
        "tests.csv": (TESTS, read_tests),
        "loads.csv": (LOADS, lambda path: read_loads(path, read_tests(path.with_name("t")))),
    }


@pytest.mark.parametrize("name", ["plan.json", "plan.csv", "done.csv", "tests.csv", "loads.csv"])
@settings(
    max_examples=100, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_a_spoiled_file_is_read_or_refused_with_its_name(tmp_path, files, name, data):
    whole, reading = files[name]
    (tmp_path / "t").write_bytes(TESTS)
    path = tmp_path / name
    path.write_bytes(data.draw(spoiled(whole)))

    told = refusal(reading, path)

    assert told is None or (str(path) in told and "\n" not in told)


@pytest.mark.parametrize("name", ["plan.json", "plan.csv", "done.csv", "tests.csv", "loads.csv"])
def test_the_whole_file_is_read(tmp_path, files, name):
    whole, reading = files[name]
    (tmp_path / "t").write_bytes(TESTS)
    (tmp_path / name).write_bytes(whole)

    assert refusal(reading, tmp_path / name) is None


def test_a_plan_that_nests_without_end_is_refused(tmp_path, files):
    path = tmp_path / "plan.json"
    path.write_bytes(b"[" * 200_000)

    assert "must be JSON" in refusal(files["plan.json"][1], path)
