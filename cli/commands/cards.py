"""Print session cards for the squad."""

from collections.abc import Sequence
from pathlib import Path

import click

from cli.carding import CardFiles, week_cards
from cli.days import week_index
from cli.files.known_keys import nearest
from cli.files.safe_write import write_bytes, write_text
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.options import (
    FOLDER,
    PATH,
    FileToWrite,
    athletes_option,
    format_option,
    squad_option,
    week_option,
)
from cli.render.cards import cards_json, cards_text
from cli.render.cards_squad import squad_text
from cli.report.card_layouts import LAYOUTS, Layout
from cli.season.argument import named_plan, season_argument
from cli.season.folder import folder_of
from optimiser.athlete.card import Card
from optimiser.athlete.squad import Athlete, Squad


@click.command("cards")
@season_argument
@click.argument("plan", type=PATH, required=False)
@click.option(
    "--plans",
    "folder",
    type=FOLDER,
    help="Folder of plans by group, as `groups` writes it; PLAN is for groups without one there. "
    "Left out, that of a season folder, if it has one.",
)
@week_option
@athletes_option
@squad_option("; left out, the squad_file of the scenario.")
@click.option(
    "--availability",
    "availability_path",
    type=PATH,
    help="Who may train from when, as .csv; left out, availability.csv beside the squad file.",
)
@click.option(
    "--tests",
    "tests_path",
    type=PATH,
    help="Dated tests, as .csv; left out, tests.csv beside the squad file.",
)
@click.option(
    "--minutes",
    "minutes_path",
    type=PATH,
    help="Minutes played, as .csv; left out, minutes.csv beside the squad file.",
)
@format_option("text", "json", about="How to print them.")
@click.option("--pdf", metavar="FILE", type=FileToWrite(), help="Write them for A4 to this file.")
@click.option(
    "--sheet",
    type=click.Choice(LAYOUTS),
    default="athlete",
    show_default=True,
    help="Of --pdf: a new sheet for each athlete or each session, all of the week in a row, or "
    "four to a sheet.",
)
@click.option(
    "--html",
    metavar="FILE",
    type=FileToWrite(),
    help="Write them as a page for phones to this file.",
)
def cards_command(
    scenario: Path,
    plan: Path | None,
    folder: Path | None,
    week: int,
    names: tuple[str, ...],
    squad_path: Path | None,
    availability_path: Path | None,
    tests_path: Path | None,
    minutes_path: Path | None,
    form: str,
    pdf: Path | None,
    sheet: Layout,
    html: Path | None,
) -> None:
    """Print a card for every athlete: one week of PLAN in sets, repetitions, metres and kilograms.

    Each card keeps to what the athlete was tested at and is allowed to do, session by session from
    warm-up to finish. The sessions of a squad are told once, with the athletes' own numbers in a
    table; with --athlete each of those asked for has cards of their own. With --plans each athlete
    gets the plan of their group.
    """
    season = folder_of(scenario)
    if plan is None and folder is None and season is not None and season.groups.is_dir():
        folder = season.groups
    plan = named_plan(scenario, plan)
    if plan is None and folder is None:
        raise click.UsageError("Give PLAN, or a folder of plans by group with --plans.")
    if pdf is None and sheet != "athlete":
        raise click.UsageError("--sheet says how --pdf is laid out: name the file with --pdf.")
    loaded = read_scenario(scenario)
    rules = read_rules(loaded)
    index = week_index(loaded.season, week)
    squad = CardFiles(loaded, squad_path, availability_path, tests_path, minutes_path)
    made = week_cards(loaded, rules, index, squad, _asked(squad.squad, names), plan, folder)
    if pdf or html:
        _write(made, loaded.season.name, pdf, sheet, html)
    elif form == "json":
        click.echo(cards_json(made))
    else:
        click.echo(cards_text(made) if names else squad_text(made))


def _write(
    made: Sequence[Card], name: str, pdf: Path | None, sheet: Layout, html: Path | None
) -> None:
    """Write cards to files; what draws is loaded only here."""
    if pdf is not None:
        from cli.report.cards_print import cards_pdf

        write_bytes(pdf, cards_pdf(made, name, sheet))
        click.echo(pdf)
    if html is not None:
        from cli.report.cards_page import cards_page

        write_text(html, cards_page(made, name))
        click.echo(html)


def _asked(squad: Squad, names: Sequence[str]) -> list[Athlete]:
    """Return the athletes asked for in the order of the squad; all of them if none is named."""
    known = {athlete.name.casefold(): athlete.name for athlete in squad.athletes}
    for name in names:
        if name.casefold() not in known:
            key = name.casefold()
            close = nearest(name, known) or next((each for each in known if key in each), None)
            do = f"did you mean {known[close]}?" if close else "look it up in the squad file"
            raise click.BadParameter(f"there is no athlete {name!r}; {do}", param_hint="--athlete")
    wanted = {name.casefold() for name in names} or set(known)
    return [athlete for athlete in squad.athletes if athlete.name.casefold() in wanted]
