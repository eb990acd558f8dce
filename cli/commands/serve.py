"""A page on this machine: move a fixture, see the season planned anew."""

import socket
from contextlib import suppress
from pathlib import Path

import click

from cli.files.plan_file import read_plan
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.season.argument import season_argument
from cli.season.progress import not_begun
from cli.solving import settings_of

HOST = "127.0.0.1"
MISSING = "`serve` needs more than the usual packages: pip install 'seasonwright[web]'"


@click.command("serve")
@season_argument
@click.option(
    "--plan",
    type=click.Path(path_type=Path),
    help="The season's plan, if there is one already; else it is searched for first.",
)
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8765,
    show_default=True,
    help="Port on this machine; 0 takes a free one.",
)
@click.option("--open", "show", is_flag=True, help="Open the page in the browser too.")
def serve_command(scenario: Path, plan: Path | None, port: int, show: bool) -> None:
    """Show SCENARIO as a page on which fixtures are moved, weeks closed and rules changed.

    Every change is planned anew, and the difference shown. Only this machine can reach the page.
    Files are written on save and not before: the scenario, and its plan beside it.
    """
    try:
        import uvicorn

        from cli.serve.app import make_app
        from cli.serve.session import Session
    except ModuleNotFoundError as error:
        raise click.ClickException(f"{MISSING} ({error.name} is not there)") from None
    loaded = read_scenario(scenario)
    not_begun(loaded, "serve")
    rules = read_rules(loaded)
    read = None if plan is None else read_plan(plan, loaded, rules)
    listening = _listen(port)
    session = Session(loaded, rules, read, settings_of(loaded, None, False, None))
    address = f"http://{HOST}:{listening.getsockname()[1]}/"
    click.echo(f"{address} shows the season; Ctrl-C ends it.")
    if show:
        click.launch(address)
    config = uvicorn.Config(make_app(session), log_level="warning", access_log=False)
    try:
        with suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[listening])
    finally:
        session.solver.close()


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
