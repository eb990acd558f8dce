"""Print session cards for the squad."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

import click

from cli.days import week_index, week_maker, written_days
from cli.files.errors import InputError
from cli.files.known_keys import nearest
from cli.files.own_work import read_kit, read_library
from cli.files.plan_file import read_plan
from cli.files.safe_write import write_bytes, write_text
from cli.files.scenario_file import Loaded, read_scenario
from cli.files.scenario_rules import read_rules
from cli.files.squad import read_squad
from cli.holding import (
    athlete_hold,
    find_availability,
    find_measured,
    find_minutes,
    restart_of,
    with_minutes,
)
from cli.options import format_option
from cli.render.cards import cards_json, cards_text
from cli.render.cards_squad import squad_text
from cli.report.card_layouts import LAYOUTS, Layout
from cli.season.argument import in_force, season_argument
from cli.season.progress import progress
from cli.squad_groups import as_planned
from optimiser.athlete.card import Card, Choice, WeekInfo, week_choices, week_info
from optimiser.athlete.cards import card
from optimiser.athlete.measured import as_measured
from optimiser.athlete.squad import Athlete, Squad
from optimiser.days.session_days import for_athlete, with_days
from optimiser.rule import Rule


@click.command("cards")
@season_argument
@click.argument("plan", type=click.Path(path_type=Path), required=False)
@click.option(
    "--plans",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder of plans by group, as `groups` writes it; PLAN is for groups without one there.",
)
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
    "--availability",
    "availability_path",
    type=click.Path(path_type=Path),
    help="Who may train from when, as .csv; left out, availability.csv beside the squad file.",
)
@click.option(
    "--tests",
    "tests_path",
    type=click.Path(path_type=Path),
    help="Dated tests, as .csv; left out, tests.csv beside the squad file.",
)
@click.option(
    "--minutes",
    "minutes_path",
    type=click.Path(path_type=Path),
    help="Minutes played, as .csv; left out, minutes.csv beside the squad file.",
)
@format_option("text", "json", about="How to print them.")
@click.option(
    "--pdf", type=click.Path(path_type=Path, dir_okay=False), help="Write them for A4 to this file."
)
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
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write them as a page for phones to this file.",
)
def cards_command(
    scenario: Path,
    plan: Path | None,
    folder: Path | None,
    number: int,
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
    plan = plan or in_force(scenario)
    if plan is None and folder is None:
        raise click.UsageError("Give PLAN, or a folder of plans by group with --plans.")
    loaded = read_scenario(scenario)
    rules = read_rules(loaded)
    index = week_index(loaded.season, number)
    library = read_library(loaded)
    there = _squad_path(loaded, squad_path)
    squad = read_squad(there, library.exercises, library.tags)
    entered = find_availability(availability_path, there, squad, library.tags)
    results = find_measured(tests_path, there, squad, library.exercises)
    played = find_minutes(minutes_path, there, squad, loaded.season)
    monday = loaded.season.weeks[index].monday
    weeks = _Weeks(loaded, rules, index)
    kit, restart = read_kit(loaded), restart_of(rules)
    made = [
        card(
            as_measured(each, results, monday),
            weeks.choices(path),
            for_athlete(
                with_minutes(weeks.info(path), played.get(each.name, {})),
                each,
                entered.of(each.name),
            ),
            library,
            kit,
            athlete_hold(each, entered, loaded.season, index, restart),
        )
        for each in _asked(squad, names)
        for path in [_plan_of(each, plan, folder)]
    ]
    weeks.tell_apart()
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


class _Weeks:
    """One week of each plan file in use, read once."""

    def __init__(self, loaded: Loaded, rules: Sequence[Rule], index: int) -> None:
        self._loaded, self._rules, self._index = loaded, rules, index
        self._read: dict[Path, tuple[list[Choice], WeekInfo]] = {}
        self._slots: dict[Path, tuple[tuple[str, dt.date], ...]] = {}

    def choices(self, path: Path) -> list[Choice]:
        """Return what the plan in ``path`` asks for."""
        return self._week(path)[0]

    def info(self, path: Path) -> WeekInfo:
        """Return what its cards say about the week."""
        return self._week(path)[1]

    def tell_apart(self) -> None:
        """Say so if the groups' plans have not the same days: they are not of one search."""
        if len(set(self._slots.values())) > 1:
            names = ", ".join(path.name for path in self._slots)
            click.echo(
                f"{names}: not the same days in week {self._index + 1}; these plans were not found "
                "together. Run `groups` again to have them share their sessions.",
                err=True,
            )

    def _week(self, path: Path) -> tuple[list[Choice], WeekInfo]:
        if path not in self._read:
            loaded, rules = as_planned(path, self._loaded, self._rules)
            there = progress(loaded, read_plan(path, loaded, rules))
            plan, season = there.lived.plan, there.loaded.season
            written = written_days(path, season)[self._index]
            if written:
                self._slots[path] = tuple((part.place, part.date) for part in written)
            maker = week_maker(loaded, rules)
            days = maker.week(plan, self._index, written)
            told = week_info(season, plan, self._index, restart_of(rules))
            info = with_days(told, days, maker)
            self._read[path] = week_choices(season, plan, self._index), info
        return self._read[path]


def _plan_of(athlete: Athlete, plan: Path | None, folder: Path | None) -> Path:
    """Return the file an athlete's plan is in: that of the group, if there is one."""
    own = None if folder is None else folder / f"{athlete.group}.json"
    if own is not None and own.is_file():
        return own
    if plan is not None:
        return plan
    raise InputError(
        own or "",
        "",
        f"must be there for {athlete.name}, group {athlete.group}",
        "no such file",
        "name the folder that `groups` wrote, or give a PLAN for groups without one",
    )


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
