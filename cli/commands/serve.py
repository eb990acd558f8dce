"""The local page: a season from a fixture list to paper, in the browser."""

import datetime as dt
import socket
from contextlib import suppress
from pathlib import Path

import click

from cli.options import plan_option
from cli.season.argument import TODAY, SeasonPath, today, today_option

HOST = "127.0.0.1"
MISSING = "`serve` needs more than the usual packages: pip install 'seasonwright[web]'"


@click.command("serve")
@click.argument("scenario", type=SeasonPath(), required=False)
@today_option
@plan_option
@click.option(
    "--in",
    "where",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="Directory whose seasons can be opened, and in which new ones are made; left out, that of "
    "SCENARIO or the current one.",
)
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8765,
    show_default=True,
    help="Port on this machine; 0 takes a free one.",
)
@click.option("--open", "show", is_flag=True, help="Open the page in the browser too.")
def serve_command(
    scenario: Path | None, plan: Path | None, where: Path | None, port: int, show: bool
) -> None:
    """Show SCENARIO as a page on which everything about it is changed; without it, begin a season.

    The page starts a season from a fixture list, opens those of a directory, shows what a change
    does, answers why, prints, and keeps versions. Only this machine can reach it. Files are written
    on save: the scenario with its comments, the fixtures file and the plan; in a new season folder
    the first plan is put in force at once, as `plan` does.
    """
    try:
        import uvicorn

        from cli.serve.app import make_app
        from cli.serve.desk import Desk
    except ModuleNotFoundError as error:
        raise click.ClickException(f"{MISSING} ({error.name} is not there)") from None
    if plan is not None and scenario is None:
        raise click.UsageError("--plan is the plan of SCENARIO: name that too")
    told = today()
    said = TODAY in click.get_current_context().meta
    desk = Desk(where or _where(scenario), (lambda: told) if said else dt.date.today)
    listening = _listen(port)
    try:
        if scenario is not None:
            desk.open(scenario, plan)
        address = f"http://{HOST}:{listening.getsockname()[1]}/"
        click.echo(f"{address} shows the {'season' if scenario else 'page'}; Ctrl-C ends it.")
        if show:
            click.launch(address)
        config = uvicorn.Config(make_app(desk), log_level="warning", access_log=False)
        with suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[listening])
    finally:
        listening.close()
        desk.close()


def _where(scenario: Path | None) -> Path:
    """Return the directory in which a season is kept, beside others."""
    from cli.season.folder import folder_of

    if scenario is None:
        return Path.cwd()
    folder = folder_of(scenario)
    return (folder.path if folder else scenario).resolve().parent


def _listen(port: int) -> socket.socket:
    """Return a socket that only this machine can reach."""
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, port))
        listening.listen()
    except OSError as error:
        listening.close()
        said = (error.strerror or str(error)).lower()
        raise click.ClickException(f"port {port}: {said}; give another one with --port") from None
    return listening
