import click
import pytest
from click.testing import CliRunner

from cli.edits import edit_options, edits_of


@click.command()
@edit_options
def show(**options):
    given = edits_of(options)
    for edit in given.changes.edits if given else ():
        click.echo(edit.model_dump_json(exclude_none=True, exclude_defaults=False))


def run(*arguments):
    return CliRunner().invoke(show, arguments)


def test_every_kind_of_edit_can_be_typed():
    result = run(
        "--move", "2026-10-03=2026-10-06",
        "--add", "2026-10-07:high:Loxley: Old Boys",
        "--drop", "2026-10-10",
        "--rank", "2026-10-17=medium",
        "--close", "2026-09-01:2026-09-07",
        "--open", "2026-09-08",
        "--set", "exposure.gap_weeks.sprint=2",
        "--without", "revisit",
        "--with", "budget",
        "--pin", "3:sprint:S2:touch",
        "--pin", "4:power::none",
    )  # fmt: skip

    lines = result.output.splitlines()
    assert result.exit_code == 0, result.output
    assert len(lines) == 11
    assert '"opponent":"Loxley: Old Boys"' in lines[1]
    assert '"parameter":"gap_weeks.sprint","value":2' in lines[6]
    assert lines[9] == '{"edit":"pin","week":3,"quality":"sprint","band":"S2","dose":"touch"}'
    assert lines[10] == '{"edit":"pin","week":4,"quality":"power","dose":"none"}'


@pytest.mark.parametrize(
    ("option", "text", "said"),
    [
        ("--move", "2026-10-03", "there is no '='"),
        ("--move", "2026-10-03=tomorrow", "'tomorrow' is not a date such as 2026-10-03"),
        ("--drop", "2026-02-30", "is not a date"),
        ("--add", "2026-10-03:vital", "priority"),
        ("--close", "2026-10-09:2026-10-03", "last must not come before first"),
        ("--set", "progression=2", "there is no '.'"),
        ("--pin", "x:sprint:S1", "is not a week"),
        ("--pin", "3:sprint", "three or four parts"),
        ("--pin", "3:sprint::", "a band, a dose or both"),
        ("--pin", "3:sprint::much", "none, touch, reduced or full"),
    ],
)
def test_what_cannot_be_read_is_refused_as_wrong_usage(option, text, said):
    result = run(option, text)

    assert result.exit_code == 2
    assert said in result.output
    assert option in result.output
