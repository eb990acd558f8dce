"""Options that several commands have: one place for name, default and words."""

from collections.abc import Callable
from typing import Any, TypeVar

import click

Command = TypeVar("Command", bound=Callable[..., Any])


def format_option(*forms: str, about: str = "How to print it.") -> Callable[[Command], Command]:
    """Return the option ``--format``, given as ``form``; the first one is the default."""
    return click.option(
        "--format",
        "form",
        type=click.Choice(forms),
        default=forms[0],
        show_default=True,
        help=about,
    )
