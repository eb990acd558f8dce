"""Record what was done, and set it against the plan."""

from collections.abc import Sequence
from pathlib import Path

import click

from cli.files.logged_sets import check_logged
from cli.files.own_work import read_library
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.options import PATH, format_option
from cli.render.done_text import as_one, athletes_text, done_csv, done_data, done_text
from cli.saying import say_json
from cli.season.against_plan import DoneAgainstPlan, of_athlete, recorded_names, standing
from cli.season.argument import season_argument, today
from cli.season.by_group import strangers
from cli.season.done_csv import COLUMNS, read_done
from cli.season.folder import Folder
from cli.season.import_done import SheetWords, new_ones, read_sheet, remember, remembered
from cli.season.needed import needed_folder
from cli.season.recording import add_records, record
from cli.season.whole_sessions import shared_out
from optimiser.domain.wording import counted


@click.command("done")
@season_argument
@click.option("--date", "day", metavar="DATE", help="Day of what is recorded; left out, today.")
@click.option("--who", help="An athlete, or a group such as starters; left out, the squad.")
@click.option("--what", help="A quality, field, gym, practice or match; of all rows of --import.")
@click.option(
    "--minutes", help="Minutes of work, of a field or gym session all of them, or played."
)
@click.option("--rpe", help="Session rating, 0-10; load is minutes x rating, in AU.")
@click.option("--load", help="Load in AU, where minutes or rating are not known.")
@click.option("--dose", help="touch, reduced or full; none or missed if nothing was done.")
@click.option("--band", help="Code of the band, if it was another than planned.")
@click.option("--sets", help="Working sets, where sets are counted.")
@click.option("--exercise", help="A lift whose sets are logged, with --kg, --reps and --left.")
@click.option("--kg", help="Its load.")
@click.option("--reps", help="Repetitions of a set.")
@click.option("--left", help="Repetitions left in reserve; with them cards learn the 1RM.")
@click.option("--note", help="A few words.")
@click.option(
    "--import",
    "sheet",
    type=PATH,
    help="Take in a CSV sheet, as heart-rate and RPE programs write it; twice does no harm.",
)
@click.option(
    "--map",
    "mapped",
    multiple=True,
    metavar="COLUMN=HEADING",
    help=f"What a column of the sheet is: {', '.join(COLUMNS)}. Remembered for the next one.",
)
@click.option(
    "--word",
    "words",
    multiple=True,
    metavar="WORD=WHAT",
    help="What a word of the sheet stands for, as in Gym=max_strength. Remembered.",
)
@click.option("--athlete", help="Show this athlete against the plan; all: one line each.")
@click.option("--group", help="Show this group against its plan; left out, all that have plans.")
@format_option("table", "json", "csv")
def done_command(
    scenario: Path,
    day: str | None,
    sheet: Path | None,
    mapped: tuple[str, ...],
    words: tuple[str, ...],
    athlete: str | None,
    group: str | None,
    form: str,
    **given: str | None,
) -> None:
    """Record what was done in a season FOLDER, and show it against the plan.

    Without options of a record it only shows: load, doses and planned readiness of every week that
    is over, as planned and as it was; of the squad, and of each group that has a plan in force.
    What is not recorded counts as planned. Records stand in done.csv, which may be edited in a
    spreadsheet too.
    """
    folder = needed_folder(scenario)
    loaded = read_scenario(scenario)
    if sheet is not None:
        spoken = SheetWords(_pairs("--map", mapped), _pairs("--word", words), given["what"] or "")
        _import(folder, loaded, sheet, spoken)
    elif any(given.values()) or day is not None:
        _record(folder, loaded, {"date": day or str(today()), **given})
    stands = standing(loaded, read_rules(loaded))
    if not stands:
        told = "has no plan in force yet to set it against; `plan` or `groups` puts one there"
        click.echo(f"{folder.path} {told}.")
        return
    everybody = athlete is not None and athlete.casefold() == "all"
    _show(_asked(loaded, stands, group, athlete), form, briefly=everybody)


def _pairs(option: str, given: Sequence[str]) -> dict[str, str]:
    pairs = {}
    for text in given:
        before, sign, after = text.partition("=")
        if not sign or not before.strip() or not after.strip():
            raise click.BadParameter(f"must be NAME=NAME (got {text!r})", param_hint=option)
        if option == "--map" and before.strip() not in COLUMNS:
            told = f"must be one of {', '.join(COLUMNS)} (got {before.strip()!r})"
            raise click.BadParameter(told, param_hint=option)
        pairs[before.strip()] = after.strip()
    return pairs


def _record(folder: Folder, loaded: Loaded, given: dict[str, str | None]) -> None:
    """Add one record."""
    cells = {name: value for name, value in given.items() if value}
    record(folder, loaded, cells, today(), "the options")


def _import(folder: Folder, loaded: Loaded, sheet: Path, spoken: SheetWords) -> None:
    """Add the records of a sheet that are not there yet."""
    mapping = spoken.over(remembered(folder))
    found = read_sheet(sheet, mapping, loaded.season, today())
    check_logged(sheet, found, read_library(loaded).exercises)
    shared = shared_out(loaded, found, sheet)
    made = new_ones(shared, read_done(folder.done, loaded.season, today()))
    remember(folder, mapping)
    unknown = strangers(loaded, (each.who for each in shared))
    if unknown:
        told = f"Not in {loaded.scenario.squad_file}: {', '.join(unknown)}. Their records stand."
        click.echo(told, err=True)
    there = len(shared) - len(made)
    told = f"{sheet.name}: {counted(len(shared), 'record')}, {there} there already."
    click.echo(told, err=True)
    if made:
        words = f"{counted(len(made), 'record')} of {sheet.name}"
        add_records(folder, loaded, made, words, today())


def _asked(
    loaded: Loaded, stands: Sequence[DoneAgainstPlan], group: str | None, athlete: str | None
) -> list[DoneAgainstPlan]:
    """Return those who are to be shown; of ``--athlete all`` everybody."""
    if athlete is not None and athlete.casefold() != "all":
        known = {name.casefold(): name for name in recorded_names(loaded)}
        if athlete.casefold() not in known:
            told = ", ".join(known.values()) or "none yet"
            said = f"must have a record (got {athlete!r}; those who have: {told})"
            raise click.BadParameter(said, param_hint="--athlete")
        return [of_athlete(loaded, stands, known[athlete.casefold()])]
    if group is not None:
        found = [each for each in stands if each.who == group.casefold()]
        if not found:
            told = ", ".join(each.who for each in stands)
            said = f"must have a plan in force (got {group!r}; those that have: {told})"
            raise click.BadParameter(said, param_hint="--group")
        return found
    if athlete is None:
        return list(stands)
    return [*stands, *(of_athlete(loaded, stands, name) for name in recorded_names(loaded))]


def _show(shown: Sequence[DoneAgainstPlan], form: str, *, briefly: bool) -> None:
    day = today()
    if form == "json":
        data = [done_data(each.season, each.found, each.records, who=each.who, today=day)
                for each in shown]  # fmt: skip
        say_json(as_one(data))
    elif form == "csv":
        click.echo(done_csv([(each.who, each.season, each.found) for each in shown]), nl=False)
    elif briefly:
        click.echo(athletes_text([(each.who, each.found) for each in shown]))
    else:
        parts = [done_text(each.season, each.found, who=each.who, today=day) for each in shown]
        click.echo("\n\n\n".join(parts))
