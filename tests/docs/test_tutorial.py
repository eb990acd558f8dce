"""The tutorial's commands and the library's example run as they stand."""

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from cli.main import main

ROOT = Path(__file__).parents[2]
TUTORIAL = (ROOT / "docs" / "tutorial.md").read_text(encoding="utf-8")
LIBRARY = (ROOT / "docs" / "library.md").read_text(encoding="utf-8")
FILES = re.findall(r"```csv (\S+)\n(.*?)```", TUTORIAL, re.S)
COMMANDS = [
    shlex.split(line)[1:]
    for block in re.findall(r"```sh\n(.*?)```", TUTORIAL, re.S)
    for line in block.splitlines()
]


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    """Run all of it in a new folder; return what each command said, by command."""
    folder = tmp_path_factory.mktemp("tutorial")
    for name, text in FILES:
        (folder / name).write_text(text, encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        answers = [CliRunner().invoke(main, command) for command in COMMANDS]
    assert [answer.exit_code for answer in answers] == [0] * len(COMMANDS), [
        answer.output for answer in answers if answer.exit_code
    ]
    told = zip(COMMANDS, answers, strict=True)
    return folder, {command[0]: answer.output for command, answer in told}


def test_a_season_is_proposed_with_the_final_as_its_peak(told):
    folder, answers = told

    assert '2027-03-13 = "high"' in (folder / "club.toml").read_text(encoding="utf-8")
    assert "No rule is broken" in answers["audit"]


def test_the_cards_keep_what_the_tutorial_says_of_them(told):
    _, answers = told
    cards = answers["cards"]

    assert "Robin Hale" in cards
    assert "not cleared" in cards.lower()


def test_the_files_that_are_named_are_written(told):
    folder, _ = told
    named = re.findall(r"`(out/[\w.]+)`", TUTORIAL)

    assert named
    assert all((folder / name).stat().st_size for name in named)


def test_the_library_example_runs(tmp_path):
    (code,) = re.findall(r"```python\n(.*?)```", LIBRARY, re.S)

    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )

    assert done.stdout.startswith("[] ")


def test_the_library_example_tells_a_clash(capsys, monkeypatch):
    (code,) = re.findall(r"```python\n(.*?)```", LIBRARY, re.S)
    monkeypatch.chdir(ROOT)

    exec(code.replace("minimal.toml", "impossible.toml"), {})

    assert "Maximal strength is pinned to band M5 in week 13" in capsys.readouterr().out


def test_what_the_library_offers_is_what_its_page_says():
    import optimiser

    told = set(re.findall(r"`(\w+)\(", LIBRARY.split("```")[0]))

    assert told == set(optimiser.__all__)
    assert all(callable(getattr(optimiser, name)) for name in optimiser.__all__)
    with pytest.raises(AttributeError, match="no attribute 'nothing'"):
        optimiser.nothing  # noqa: B018


def test_a_fixtures_file_is_told_who_reads_it(tmp_path):
    import optimiser

    path = tmp_path / "club.toml"
    path.write_text('name = "C"\nfirst_monday = 2027-02-01\nweeks = 3\nfixtures_file = "f.csv"\n')

    with pytest.raises(ValueError, match="read it with cli"):
        optimiser.read_scenario(path)


def test_the_program_runs_as_a_module():
    done = subprocess.run(
        [sys.executable, "-m", "cli", "--version"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stdout.startswith("seasonwright ")
