"""Print session cards for the squad."""

from collections.abc import Sequence
from pathlib import Path

import click

from cli.days import week_index, week_maker
from cli.files.errors import InputError
from cli.files.known_keys import nearest
from cli.files.own_work import read_kit, read_library
from cli.files.plan_file import read_plan
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.files.squad import read_squad
from cli.render.cards import cards_json, cards_text
from optimiser.athlete.card import Card, week_choices, week_info
from optimiser.athlete.cards import card
from optimiser.athlete.library import Library
from optimiser.athlete.squad import Athlete, Squad
from optimiser.days.session_days import for_athlete, with_days
from optimiser.domain.plan import Plan
from optimiser.rule import Rule


@click.command("cards")
@click.argument("scenario", type=click.Path(path_type=Path))
@click.argument("plan", type=click.Path(path_type=Path))
@click.option(
    "--week", "number", type=click.IntRange(min=1), required=True, help="Week, counted from 1."
)
@click.option("--athlete", "names", multiple=True, help="Only this one; may be given again.")
@click.option(
    "--squad",
    "squad_path",
    type=click.Path(path_type=Path),
    help="The athletes, as .csv; left out, the squad_file of the scenario.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="How to print them.",
)
def cards_command(
    scenario: Path,
    plan: Path,
    number: int,
    names: tuple[str, ...],
    squad_path: Path | None,
    form: str,
) -> None:
    """Print a card for every athlete: one week of PLAN in sets, repetitions, metres and kilograms.

    Each card keeps to what the athlete was tested at and is allowed to do, and says on which days
    the sessions are.
    """
    loaded = read_scenario(scenario)
    rules = read_rules(loaded)
    index = week_index(loaded.season, number)
    library = read_library(loaded)
    squad = read_squad(_squad_path(loaded, squad_path), library.exercises, library.tags)
    asked = _asked(squad, names)
    made = _cards(loaded, rules, read_plan(plan, loaded, rules), index, library, asked)
    click.echo(cards_json(made) if form == "json" else cards_text(made))


def _cards(
    loaded: Loaded,
    rules: Sequence[Rule],
    plan: Plan,
    index: int,
    library: Library,
    athletes: Sequence[Athlete],
) -> list[Card]:
    kit = read_kit(loaded)
    days = week_maker(loaded, rules).week(plan, index)
    info = with_days(week_info(loaded.season, plan, index), days)
    choices = week_choices(loaded.season, plan, index)
    return [card(each, choices, for_athlete(info, each), library, kit) for each in athletes]


def _squad_path(loaded: Loaded, given: Path | None) -> Path:
    if given is not None:
        return given
    if loaded.scenario.squad_file is None:
        raise InputError(
            loaded.path, "squad_file", "must be given", "nothing", "add it, or use --squad FILE"
        )
    return loaded.path.parent / loaded.scenario.squad_file


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
