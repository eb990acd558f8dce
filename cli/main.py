"""The command line: names of commands, loaded only when one is used."""

import importlib
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import Any, NamedTuple

import click

from cli.lasting_output import outlive_readers
from cli.patience import STOPPED

#: Exit codes.
DONE, BAD_FILE, BAD_USAGE, CLASH, OUT_OF_TIME = 0, 1, 2, 3, 4


class Place(NamedTuple):
    """Where a command is, and the line about it."""

    where: str
    about: str


#: The one table of commands.
COMMANDS = {
    "new": Place("cli.commands.new:new_command", "Write a scenario around a fixture list."),
    "plan": Place("cli.commands.plan:plan_command", "Find the best plan of a season."),
    "audit": Place("cli.commands.audit:audit_command", "Look over a plan that is there already."),
    "explain": Place("cli.commands.explain:explain_command", "Say why there is no plan."),
    "why": Place("cli.commands.why:why_command", "Say why a plan has what it has in one place."),
    "week": Place("cli.commands.week:week_command", "Put one week of a plan on its days."),
    "club": Place("cli.commands.club:club_command", "Put all squads on shared ground and rooms."),
    "cards": Place("cli.commands.cards:cards_command", "Print every athlete's card for a week."),
    "groups": Place(
        "cli.commands.groups:groups_command", "Plan for each group of the squad at once."
    ),
    "report": Place("cli.commands.report:report_command", "Write a plan to show and print."),
    "serve": Place("cli.commands.serve:serve_command", "Change a season on a page, in a browser."),
    "batch": Place("cli.commands.batch:batch_command", "Plan many seasons and compare them."),
    "whatif": Place("cli.commands.whatif:whatif_command", "Plan a changed season and compare."),
    "prices": Place("cli.commands.prices:prices_command", "Say what each rule costs the season."),
    "replan": Place("cli.commands.replan:replan_command", "Plan on in the season."),
    "done": Place("cli.commands.done:done_command", "Record what was done, against the plan."),
    "undo": Place("cli.commands.undo:undo_command", "Take the last applied change back."),
    "redo": Place("cli.commands.undo:redo_command", "Do again what undo took back."),
    "versions": Place(
        "cli.commands.versions:versions_command", "List, name, compare and restore versions."
    ),
    "sweep": Place("cli.commands.sweep:sweep_command", "Plan a grid of rule parameters."),
    "tests": Place("cli.commands.tests:tests_command", "Show what a squad's tests say."),
    "fit": Place("cli.commands.fit:fit_command", "Estimate constants from your own tests."),
    "league": Place("cli.commands.league:league_command", "Write an invented league's seasons."),
    "rules": Place("cli.commands.rules:rules_command", "List the coaching rules and defaults."),
}


class LazyGroup(click.Group):
    """A group that imports a command when it is called and not before."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names in the order of the table."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return one command, or None if there is none of that name."""
        if cmd_name not in COMMANDS:
            return None
        module, name = COMMANDS[cmd_name].where.split(":")
        command: click.Command = getattr(importlib.import_module(module), name)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands from the table alone."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, place.about) for name, place in COMMANDS.items()])

    def main(
        self,
        args: Sequence[str] | None = None,
        prog_name: str | None = None,
        complete_var: str | None = None,
        standalone_mode: bool = True,
        windows_expand_args: bool = True,
        **extra: Any,
    ) -> Any:
        """Run to the end even if a pipe closes early; Ctrl-C is kept quiet."""
        outlive_readers()
        show_anything()
        try:
            done = super().main(
                args,
                prog_name or "seasonwright",
                complete_var,
                standalone_mode=False,
                windows_expand_args=windows_expand_args,
                **extra,
            )
            sys.stdout.flush()
        except click.ClickException as error:
            error.show()
            done = error.exit_code
        except (click.Abort, KeyboardInterrupt):
            click.echo("Stopped.", err=True)
            done = STOPPED
        except OSError as error:
            done = _cannot_write(error)
        code = done if isinstance(done, int) else DONE
        return sys.exit(code) if standalone_mode else code


def show_anything() -> None:
    """Let signs that a terminal cannot show become question marks instead of trouble."""
    for stream in (sys.stdout, sys.stderr):
        with suppress(AttributeError, ValueError):
            stream.reconfigure(errors="replace")  # type: ignore[union-attr]


def _cannot_write(error: OSError) -> int:
    """Say that results have nowhere to go."""
    with suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    click.echo(f"Error: the results could not be written: {error.strerror or error}", err=True)
    return BAD_FILE


def _version(ctx: click.Context, _: click.Parameter, asked: bool) -> None:
    if asked:
        from cli.program_versions import own_version

        click.echo(f"seasonwright {own_version()}")
        ctx.exit()


@click.group(
    "seasonwright", cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]}
)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_version,
    help="Say which version this is and stop.",
)
def main() -> None:
    """Plan a strength-and-conditioning season around its fixtures.

    Start with `new`, which writes a scenario from a fixture list, then `plan`. Each command
    explains itself: seasonwright plan --help.

    Exit codes: 0 done, 1 a file cannot be used, 2 the command line cannot be used, 3 the rules
    clash and no plan keeps them all, 4 out of time before a plan was found.
    """
