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


class RenamedOption(click.Option):
    """An option whose first spelling is the one people are told; the others go on working."""

    def get_help_record(self, ctx: click.Context) -> tuple[str, str] | None:
        """Return the line of the help text, under the new name alone."""
        spelt, self.opts = self.opts, self.opts[:1]
        try:
            return super().get_help_record(ctx)
        finally:
            self.opts = spelt

    def get_error_hint(self, ctx: click.Context | None) -> str:
        """Return what a message calls the option."""
        return f"'{self.opts[0]}'"
