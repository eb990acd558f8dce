import os
import shlex
import subprocess
import sys

import click
import pytest
from click.testing import CliRunner

from cli.main import COMMANDS, main

HEAVY = ("ortools", "numpy", "pydantic", "highspy", "tabulate")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_of_the_table_is_there_under_its_name(name):
    command = main.get_command(click.Context(main), name)

    assert command is not None
    assert command.name == name
    assert command.help


def test_help_lists_every_command_and_the_exit_codes():
    text = CliRunner().invoke(main, ["--help"]).output

    assert all(f"  {name} " in text for name in COMMANDS)
    assert "4 out of time" in " ".join(text.split())


def test_help_loads_nothing_heavy():
    code = (
        "import sys\nfrom cli.main import main\nmain(['--help'], standalone_mode=False)\n"
        f"print([name for name in {HEAVY} if name in sys.modules])"
    )

    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.splitlines()[-1] == "[]"


@pytest.mark.parametrize("arguments", [["nothing"], ["plan"], ["plan", "x.toml", "--sead", "1"]])
def test_a_command_line_that_cannot_be_used_is_exit_code_two(arguments):
    assert CliRunner().invoke(main, arguments).exit_code == 2


def test_a_file_that_cannot_be_used_is_exit_code_one(tmp_path):
    result = CliRunner().invoke(main, ["plan", str(tmp_path / "none.toml")])

    assert result.exit_code == 1
    assert "must exist" in result.stderr
    assert result.stdout == ""


def test_the_version_is_told():
    result = CliRunner().invoke(main, ["--version"])

    assert result.exit_code == 0
    assert result.output.startswith("seasonwright 0.")


def test_a_reader_that_has_had_enough_is_no_trouble():
    command = f"{sys.executable} -m cli rules | head -1"

    done = subprocess.run(
        ["bash", "-o", "pipefail", "-c", command], capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stderr) == (0, "")


def test_what_comes_after_a_reader_has_had_enough_is_done_all_the_same(tmp_path):
    code = "import click, pathlib, sys\nfrom cli.lasting_output import outlive_readers\n"
    code += "outlive_readers()\n"
    code += "for n in range(9999): click.echo(n), click.echo(n, err=True)\n"
    code += f"pathlib.Path({str(tmp_path / 'kept')!r}).write_text('whole')"

    command = f"{sys.executable} -c {shlex.quote(code)} 2>&1 | head -1"
    done = subprocess.run(
        ["bash", "-o", "pipefail", "-c", command], capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stdout) == (0, "0\n")
    assert (tmp_path / "kept").read_text() == "whole"


def test_a_terminal_with_few_signs_gets_question_marks_and_no_trouble():
    code = "import click\nfrom cli.main import show_anything\nshow_anything()\n"
    code += "click.echo('Br\u00e9da \u25ae')"
    env = {**os.environ, "PYTHONIOENCODING": "cp1252"}

    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, env=env)

    assert done.stdout.decode("cp1252").strip() == "Br\u00e9da ?"


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a device that is always full")
def test_a_full_disk_is_told_in_one_line():
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "cli", "rules"],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )

    assert done.returncode == 1
    assert done.stderr.startswith("Error: the results could not be written")
    assert done.stderr.count("\n") == 1
