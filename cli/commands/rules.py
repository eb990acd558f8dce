"""List the coaching rules."""

import click

from cli.files.known_keys import nearest
from cli.options import format_option
from cli.render.rules_table import rule_text, rules_json, rules_table
from constraints import CATALOGUE


@click.command("rules")
@click.argument("name", required=False)
@format_option("table", "json")
def rules_command(name: str | None, form: str) -> None:
    """List the coaching rules: what each says, its parameters and their defaults.

    With NAME, all about that one rule, with its source.
    """
    kinds = CATALOGUE if name is None else {name: CATALOGUE[_known(name)]}
    if form == "json":
        click.echo(rules_json(kinds))
    elif name is None:
        click.echo(rules_table(kinds))
    else:
        click.echo(rule_text(CATALOGUE[name]))


def _known(name: str) -> str:
    if name not in CATALOGUE:
        close = nearest(name, CATALOGUE)
        do = f"did you mean {close}?" if close else f"rules: {', '.join(CATALOGUE)}"
        raise click.BadParameter(f"there is no rule {name!r}; {do}", param_hint="NAME")
    return name
