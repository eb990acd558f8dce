import contextlib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cli.files.errors import InputError
from cli.files.fixtures_file import read_fixtures_file
from cli.files.scenario_file import read_scenario

SEEDS = {
    ".toml": b'name = "T"\nfirst_monday = 2026-08-31\nweeks = 12\n[[fixtures]]\ndate = 2026-10-10\n'
    b'[[breaks]]\nkind = "rest"\nfirst = 2026-09-01\nlast = 2026-09-09\n[targets.high]\npeak = 9\n'
    b"[qualities.sprint.doses.full]\nminutes = 40\n",
    ".csv": b"date,kickoff,opponent,minutes\n2026-10-10,19:30,Saltmere,60\n2026-10-17,,,\n",
    ".ics": b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nUID:1\r\n"
    b"DTSTART;TZID=Europe/Dublin:20261010T150000\r\nCATEGORIES:Cup,High\r\nPRIORITY:2\r\n"
    b"SUMMARY:A\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n",
}


@st.composite
def damaged(draw, seed):
    start = draw(st.integers(0, len(seed)))
    stop = draw(st.integers(start, min(len(seed), start + 12)))
    return seed[:start] + draw(st.binary(max_size=6) | st.sampled_from(JUNK)) + seed[stop:]


JUNK = [
    b"",
    b"\x00",
    b"-",
    b"0",
    b"[",
    b"]",
    b"=",
    b'"',
    b"\n",
    b"9999-12-31",
    b"0001-01-01",
    b"nan",
]


@pytest.mark.parametrize("ending", SEEDS)
@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_a_damaged_file_is_read_or_refused_with_its_name(tmp_path, ending, data):
    path = tmp_path / f"file{ending}"
    path.write_bytes(data.draw(damaged(SEEDS[ending])))
    told = None

    with contextlib.suppress(InputError):
        try:
            (read_scenario if ending == ".toml" else read_fixtures_file)(path)
        except InputError as error:
            told = error.format_message()
            raise

    assert told is None or (str(path) in told and "\n" not in told)
