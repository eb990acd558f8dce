"""Saving when it cannot be done, or is broken off: a clear error and the old file whole."""

import os
import random
import resource
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner
from short_season import SHORT

from cli.files.safe_write import write_bytes
from cli.main import main

SCENARIOS = Path(__file__).parents[2] / "scenarios"
SIZE = 3_000_000
#: Writes two versions of a file in turn, and says when the first is there.
WRITER = f"""
import sys
from pathlib import Path
from cli.files.safe_write import write_bytes
path = Path(sys.argv[1])
while True:
    for sign in b"AB":
        write_bytes(path, bytes([sign]) * {SIZE})
        print(flush=True)
"""


def limited(limit=1024):
    """Have the system refuse files above ``limit`` bytes, as a full disk does."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))


def run(*words, **options):
    command = [sys.executable, "-m", "cli", *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, check=False, **options)


@pytest.fixture(scope="module")
def short(tmp_path_factory):
    path = tmp_path_factory.mktemp("short") / "short.toml"
    path.write_text(SHORT)
    return path


def test_a_writer_that_is_killed_leaves_one_whole_version(tmp_path):
    path = tmp_path / "plan.json"
    chance = random.Random(7)
    for _ in range(6):
        with subprocess.Popen(
            [sys.executable, "-c", WRITER, str(path)], stdout=subprocess.PIPE
        ) as writer:
            writer.stdout.readline()
            time.sleep(chance.uniform(0, 0.05))
            writer.kill()

        data = path.read_bytes()
        assert data in (b"A" * SIZE, b"B" * SIZE)


def test_a_search_that_is_killed_leaves_the_old_plan(tmp_path, short):
    path = tmp_path / "plan.json"
    path.write_text("old")
    command = [sys.executable, "-m", "cli", "plan", str(short), "--out", str(path)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as search:
        time.sleep(0.5)
        search.send_signal(signal.SIGKILL)

    assert path.read_text() == "old"


@pytest.mark.parametrize("name", ["plan.json", "plan.csv"])
def test_no_room_for_the_plan_is_told_and_the_old_one_stays(tmp_path, short, name):
    path = tmp_path / name
    path.write_text("old")

    done = run("plan", short, "--out", path, preexec_fn=limited)

    assert done.returncode == 1
    assert done.stderr.startswith(f"Error: {path}: must be a place that can be written to")
    assert done.stderr.count("\n") == 1
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_no_room_for_a_league_is_told(tmp_path):
    words = ["league", "--start", "2026-06-01", "-o", tmp_path / "league"]

    done = run(*words, preexec_fn=lambda: limited(100))

    assert done.returncode == 1
    assert "must be a place that can be written to" in done.stderr
    assert "Traceback" not in done.stderr
    assert not list((tmp_path / "league").glob(".*"))


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_device_that_is_full_is_told_and_stays_a_device(tmp_path, short):
    link = tmp_path / "plan.json"
    link.symlink_to("/dev/full")

    done = run("plan", short, "--out", link)

    assert done.returncode == 1
    assert "no space left on device" in done.stderr
    assert Path("/dev/full").is_char_device()


def test_what_is_saved_to_a_pipe_arrives(tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with subprocess.Popen(["cat", str(pipe)], stdout=subprocess.PIPE) as reader:
        write_bytes(pipe, b"whole")

        assert reader.stdout.read() == b"whole"
    assert pipe.is_fifo()


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="needs a folder nobody can write to")
@pytest.mark.parametrize(
    "words",
    [
        "plan {short} --out /proc/plan.json",
        f"new --fixtures {SCENARIOS}/football_cup.csv -o /proc/season.toml",
        "league --start 2026-06-01 -o /proc/league",
    ],
)
def test_a_folder_that_cannot_be_written_to_is_told(short, words):
    done = CliRunner().invoke(main, words.format(short=short).split())

    assert done.exit_code == 1
    # `new` says before what it read
    assert done.stderr.splitlines()[-1].startswith("Error: /proc/")
    assert done.stderr.count("Error") == 1


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_read_only_folder_is_told(tmp_path, short):
    tmp_path.chmod(0o500)

    done = CliRunner().invoke(main, ["plan", str(short), "--out", str(tmp_path / "plan.json")])

    tmp_path.chmod(0o700)
    assert done.exit_code == 1
    assert "permission denied" in done.stderr
