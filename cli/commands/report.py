"""Write a plan as a page, a printout, pictures, a workbook and a calendar."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path
from zoneinfo import ZoneInfo

import click

from cli.carding import CardFiles, week_cards
from cli.days import Starts, week_index, written_days
from cli.files.errors import InputError
from cli.files.plan_file import read_plan
from cli.files.plan_json import read_document
from cli.files.safe_write import make_directory, write_bytes
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.options import FROM_ONE, PATH, Command, folder_option, with_options
from cli.report.calendar_file import Times
from cli.report.done_note import done_notes
from cli.report.files import KINDS, made_files
from cli.report.given_up import given_up_notes
from cli.report.notes import read_note
from cli.report.report import Compared, make_report
from cli.season.argument import plan_argument, season_argument, today
from cli.season.documents import with_done
from cli.season.progress import progress
from cli.solving import document_of
from cli.squad_groups import as_planned
from optimiser.athlete.card import Card
from optimiser.domain.document import PlanDocument
from optimiser.domain.plan import Plan
from optimiser.joint_model.effort import CLOSE
from optimiser.joint_model.verdict import judged, told_before
from optimiser.response.readiness import UNITS
from optimiser.rule import Rule


def kind_options(command: Command) -> Command:
    """Add a switch a kind of file."""
    options = [
        click.option(f"--{kind}", f"kind_{kind}", is_flag=True, help=about)
        for kind, about in KINDS.items()
    ]
    return with_options(options, command)


def _time(ctx: click.Context, option: click.Parameter, text: str | None) -> dt.time | None:
    try:
        return None if text is None else dt.datetime.strptime(text, "%H:%M").time()
    except ValueError:
        raise click.BadParameter(f"must be a time such as 10:30 (got {text!r})") from None


def _zone(ctx: click.Context, option: click.Parameter, text: str | None) -> ZoneInfo | None:
    try:
        return None if text is None else ZoneInfo(text)
    except (LookupError, ValueError, OSError):
        raise click.BadParameter(f"must be a zone such as Europe/Dublin (got {text!r})") from None


@click.command("report")
@season_argument
@plan_argument
@folder_option("Folder to write to; it is made if it is not there.", Path("report"))
@kind_options
@click.option(
    "--against",
    type=PATH,
    help="A plan of the same weeks, such as one before a change: draw what is different.",
)
@click.option(
    "--note",
    "notes",
    multiple=True,
    type=PATH,
    help="What `prices` or `why` answered, saved with --format json; shown on the page.",
)
@click.option(
    "--timezone", "zone", callback=_zone, metavar="ZONE", help="Of kick-offs, for the calendar."
)
@click.option("--field-at", callback=_time, metavar="HH:MM", help="Start of every field session.")
@click.option("--gym-at", callback=_time, metavar="HH:MM", help="Start of every gym session.")
@click.option(
    "--cards-week",
    "cards_week",
    type=FROM_ONE,
    help="Week of the cards, counted from 1; left out, the first open one that is not over.",
)
def report_command(
    scenario: Path,
    plan: Path,
    out: Path,
    against: Path | None,
    notes: tuple[Path, ...],
    zone: ZoneInfo | None,
    field_at: dt.time | None,
    gym_at: dt.time | None,
    cards_week: int | None,
    **kinds: bool,
) -> None:
    """Write PLAN of SCENARIO as files to show, print, edit and subscribe to.

    All kinds are written unless some are asked for; cards only where the scenario names a squad.
    Without --timezone the times of the calendar are those of whoever looks; without --field-at and
    --gym-at sessions start when their days leave room for them. Of a season folder the page and
    the chart show what was planned beside what was done.
    """
    whole = read_scenario(scenario)
    all_rules = read_rules(whole)
    loaded, rules = as_planned(plan, whole, all_rules)
    there = progress(loaded, read_plan(plan, loaded, rules))
    loaded, read = there.loaded, there.lived.plan
    document = _document(plan, loaded, rules, read)
    document = _with_told(plan, document)
    if there.lived.weeks:
        document = with_done(there, document)
    compared = None if against is None else _compared(against, loaded, rules, document)
    told = [read_note(path, loaded.season) for path in notes]
    told = [*given_up_notes(document), *done_notes(there), *told]
    written = written_days(plan, loaded.season)
    starts = Starts(field_at, gym_at)
    report = make_report(loaded, rules, read, document, told, compared, written, starts)
    asked = frozenset(kind for kind in KINDS if kinds[f"kind_{kind}"])
    squad = loaded.scenario.squad_file is not None
    wanted = asked or frozenset(KINDS) - (frozenset() if squad else {"cards"})
    cards = _cards(whole, all_rules, plan, cards_week) if "cards" in wanted else []
    make_directory(out)
    for made in made_files(report, wanted, Times(zone), cards):
        write_bytes(out / made.name, made.data)
        click.echo(out / made.name)


def _cards(loaded: Loaded, rules: Sequence[Rule], plan: Path, number: int | None) -> list[Card]:
    season = loaded.season
    if number is not None:
        index = week_index(season, number, "--cards-week")
    else:
        first = today() - dt.timedelta(days=6)
        open_ = [week for week in season.weeks if not week.closed]
        index = next((week.index for week in open_ if week.monday >= first), open_[-1].index)
    files = CardFiles(loaded)
    return week_cards(loaded, rules, index, files, files.squad.athletes, plan)


def _document(path: Path, loaded: Loaded, rules: Sequence[Rule], plan: Plan) -> PlanDocument:
    """Work out a plan's numbers; what the search proved is taken from its file and checked."""
    if path.suffix.lower() != ".json":
        return document_of(loaded, rules, plan)
    told = read_document(path)
    if told.season is None:
        return document_of(loaded, rules, plan, seed=told.seed)
    if loaded.group:
        # what is proven is proven of all groups together, of which this is one
        here = document_of(loaded, rules, plan, seed=told.seed)
        return here.model_copy(update={"season": told.season, "status": told.status})
    rates, changes = loaded.scenario.rates, round(told.season.changes * UNITS)
    found = told_before(told.season)
    verdict = judged(
        loaded.season, rules, plan, found, rates, CLOSE, changes=changes, first=loaded.over
    )
    return document_of(loaded, rules, plan, verdict, told.seed)


def _with_told(path: Path, document: PlanDocument) -> PlanDocument:
    """Return the document with what its file says was given up and would help: no plan can tell."""
    if path.suffix.lower() != ".json":
        return document
    told = read_document(path)
    same = told.scenario.digest == document.scenario.digest
    helps = told.helps if same else ()
    return document.model_copy(update={"concessions": told.concessions, "helps": helps})


def _compared(path: Path, loaded: Loaded, rules: Sequence[Rule], after: PlanDocument) -> Compared:
    """Return the plan to compare with; one of a changed season is taken as its file tells it."""
    if path.suffix.lower() == ".json":
        told = read_document(path)
        if told.scenario.digest != loaded.digest:
            _check_weeks(path, told, after)
            return Compared(told, path.stem)
    plan = read_plan(path, loaded, rules)
    return Compared(document_of(loaded, rules, plan), path.stem)


def _check_weeks(path: Path, told: PlanDocument, after: PlanDocument) -> None:
    for word, mine, other in (
        ("weeks", [week.monday for week in after.weeks], [week.monday for week in told.weeks]),
        ("qualities", set(after.weeks[0].qualities), set(told.weeks[0].qualities)),
    ):
        if mine != other:
            raise InputError(
                path,
                "weeks",
                f"must have the same {word} as the plan it is compared with",
                told.scenario.name,
                "name a plan of this season, or of a change to it",
            )
