"""Options that several commands have: each one's name, type, default and words in one place."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import click

Command = TypeVar("Command", bound=Callable[..., Any])

#: What people name; whether it can be used is told by what reads or writes it.
PATH = click.Path(path_type=Path)
FOLDER = click.Path(path_type=Path, file_okay=False)


class FileToWrite(click.Path):
    """A file for a result: its ending and its place are looked at before there is work to lose.

    Parameters
    ----------
    endings
        Those it may have, such as ``.csv``; none given, any.
    """

    def __init__(self, *endings: str) -> None:
        super().__init__(path_type=Path)
        self.endings = endings

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Path:
        """Return the path.

        Raises
        ------
        click.BadParameter
            If it has another ending.
        InputError
            If it cannot be written to.
        """
        from cli.files.safe_write import check_writable

        path = Path(str(value))
        if self.endings and path.suffix.lower() not in self.endings:
            *first, last = self.endings
            told = f"must end in {', '.join(first)} or {last} (got {path.name})"
            raise click.BadParameter(told, ctx, param, param.opts[-1] if param else None)
        check_writable(path)
        return path


DAY = click.DateTime(["%Y-%m-%d"])
#: Weeks, versions and counts, as people count them.
FROM_ONE = click.IntRange(min=1)
SHARE = click.FloatRange(0, 1)


def with_options(options: Sequence[Callable[[Command], Command]], command: Command) -> Command:
    """Return a command with options that go together, in this order."""
    for option in reversed(options):
        command = option(command)
    return command


# How a search goes.


def search_options(command: Command) -> Command:
    """Add the options of a search: ``--seed``, ``--fast`` and ``--seconds``."""
    options = [
        seed_option("Same seed, same plan; left out, that of the scenario."),
        click.option("--fast", is_flag=True, help="Search on every core; runs need not repeat."),
        seconds_option("Longest time of a search, in seconds; normally its fixed effort ends it."),
    ]
    return with_options(options, command)


def seed_option(about: str, default: int | None = None) -> Callable[[Command], Command]:
    """Return the option ``--seed``."""
    kind = click.IntRange(0, 2**31 - 1)
    return click.option("--seed", type=kind, default=default, show_default=True, help=about)


def seconds_option(
    about: str, default: float | None = None, least: float = 1
) -> Callable[[Command], Command]:
    """Return the option ``--seconds``, which is ``least`` or more."""
    kind = click.FloatRange(min=least)
    return click.option("--seconds", type=kind, default=default, show_default=True, help=about)


thorough_option = click.option(
    "--thorough", is_flag=True, help="Search until no plan can be more than 0.1 % better."
)
jobs_option = click.option(
    "--jobs", type=click.IntRange(1, 1024), help="Processes, one solve each; left out, one a core."
)

# What a season and its plan are taken from.

week_option = click.option("--week", type=FROM_ONE, required=True, help="Week, counted from 1.")
plan_option = click.option(
    "--plan",
    type=PATH,
    help="The season's plan, if there is one already; else it is searched for first.",
)
base_option = click.option(
    "--base",
    type=PATH,
    help="The plan as it stands, as saved by `plan --out PLAN.json`; it is not searched again.",
)
other_season_option = click.option(
    "--other-season", is_flag=True, help="Take a plan that was made for another season."
)
athletes_option = click.option(
    "--athlete", "names", multiple=True, help="Only this one; may be given again."
)


def squad_option(about: str) -> Callable[[Command], Command]:
    """Return the option ``--squad``, a file of athletes; ``about`` says what it is for."""
    return click.option("--squad", "squad_path", type=PATH, help=f"The athletes, as .csv{about}")


def list_options(command: Command) -> Command:
    """Add how the dates of a fixture list are read: ``--dates`` and ``--year``."""
    options = [
        click.option(
            "--dates",
            type=click.Choice(["day-first", "month-first"]),
            help="How to read dates such as 03/04/2026, where the list does not tell.",
        ),
        click.option(
            "--year",
            type=click.IntRange(2000, 2100),
            help="In which year the season of the list begins, for dates without one.",
        ),
    ]
    return with_options(options, command)


# What becomes of a result.


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


ascii_option = click.option(
    "--ascii", "plain", is_flag=True, help="Draw the table with plain signs only."
)
strict_option = click.option(
    "--strict", is_flag=True, help="Where the rules clash, give no nearest plan."
)


def out_option(about: str, *endings: str) -> Callable[[Command], Command]:
    """Return the option ``--out``: a file for what is printed too, with one of the endings."""
    return click.option("--out", type=FileToWrite(*endings), help=about)


def folder_option(about: str, default: Path | None = None) -> Callable[[Command], Command]:
    """Return the option ``--out`` of a folder for many files."""
    return click.option("-o", "--out", type=FOLDER, default=default, show_default=True, help=about)


def output_option(about: str) -> Callable[[Command], Command]:
    """Return the option ``--output``: what a command is there to write."""
    return click.option("-o", "--output", type=PATH, required=True, help=about)


def force_option(about: str) -> Callable[[Command], Command]:
    """Return the option ``--force``."""
    return click.option("--force", is_flag=True, help=about)


def apply_option(about: str) -> Callable[[Command], Command]:
    """Return the option ``--apply`` of a command that makes one thing, given as ``applied``."""
    return click.option("--apply", "applied", is_flag=True, help=about)


def keep_options(*, save: str, lock: str, forget: str) -> Callable[[Command], Command]:
    """Return the options on what is kept of one week's days."""
    told = {"save": save, "lock": lock, "forget": forget}
    options = [click.option(f"--{name}", is_flag=True, help=help) for name, help in told.items()]
    return lambda command: with_options(options, command)


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
