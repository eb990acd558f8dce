"""What a squad's tests say: trends with the tests' own error."""

from dataclasses import asdict
from pathlib import Path

import click

from cli.files.errors import InputError
from cli.files.tests_file import read_measured
from cli.options import PATH, athletes_option, format_option
from cli.render.tests_text import tests_text
from cli.saying import say_json
from cli.season.folder import TESTS
from optimiser.athlete.library import default_library
from optimiser.athlete.trend import trends


@click.command("tests")
@click.argument("file", type=PATH)
@athletes_option
@format_option("table", "json")
def tests_command(file: Path, names: tuple[str, ...], form: str) -> None:
    """Show what changed in FILE (.csv: athlete, date, test, value), and what is only noise.

    A season folder stands for the tests.csv in it.

    A test is squat_1rm_kg, squat_5rm_kg, split_10_m_s, sled_50_loss_pct, body_mass_kg, or any name
    with its unit at the end, such as jump_cm. A change within the test's own error is no progress.
    """
    file = file / TESTS if file.is_dir() else file
    results = read_measured(file, default_library().exercises)
    if not results:
        raise InputError(file, "", "must hold at least one result", "none", "add the tests")
    found = trends(results)
    if names:
        wanted = {name.casefold() for name in names}
        known = {result.athlete.casefold() for result in results}
        unknown = [name for name in names if name.casefold() not in known]
        if unknown:
            raise click.BadParameter(
                f"there is no result of {unknown[0]!r}; write the name as in the file",
                param_hint="--athlete",
            )
        found = [each for each in found if each.athlete.casefold() in wanted]
    if form == "json":
        made = {"format": "seasonwright.tests/1", "trends": [asdict(each) for each in found]}
        say_json(made)
    else:
        click.echo(tests_text(found))
