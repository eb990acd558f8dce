"""How commands say what they found or wrote, and leave when they cannot go on."""

import sys
from pathlib import Path
from typing import Any

import click

from cli.files.safe_write import write_bytes
from cli.main import CLASH, OUT_OF_TIME
from cli.render.json_text import json_text


def say_json(data: Any) -> None:
    """Print an answer as JSON, as standard output can show it."""
    click.echo(json_text(data, sys.stdout.encoding))


def save(path: Path, data: bytes) -> None:
    """Write a file that was asked for, and say so."""
    write_bytes(path, data)
    click.echo(f"Wrote {path}.", err=True)


def need(held: bool, words: str) -> None:
    """Refuse options that do not go together.

    Raises
    ------
    click.UsageError
        With ``words``, if ``held`` is false.
    """
    if not held:
        raise click.UsageError(words)


def without_plan(status: str) -> click.exceptions.Exit:
    """Return the end of a command whose search came to no plan, with its exit code."""
    return click.exceptions.Exit(CLASH if status == "clash" else OUT_OF_TIME)
