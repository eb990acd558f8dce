"""The pages of a club for phones: no network, no script, no other file."""

import datetime as dt
from collections.abc import Mapping, Sequence
from importlib.resources import files
from itertools import groupby
from typing import Any

from markupsafe import Markup

from cli.club_agenda import Agenda, AgendaEntry
from cli.report.templates import filled_template

PAGES = "cli.report"
NOTE = (
    "A planning aid. The coach decides; whoever is hurt or coming back does what the medical team "
    "says, whatever stands here."
)
GROUPS = {"squad": "Squads", "room": "Rooms and pitches", "person": "People", "athlete": "Athletes"}
#: Width of the chart of loads and height of a full column.
WIDE, HIGH = 360, 50


def agenda_page(club: str, agenda: Agenda) -> str:
    """Return the page of one squad, room, person or athlete."""
    weeks = [(monday, _days(entries)) for monday, entries in agenda.weeks()]
    return _page(
        "agenda.html.j2",
        club=club,
        agenda=agenda,
        weeks=weeks,
        shared=agenda.kind in ("room", "person"),
    )


def _days(entries: Sequence[AgendaEntry]) -> list[tuple[dt.date, str, list[AgendaEntry]]]:
    days = [(date, list(found)) for date, found in groupby(entries, lambda each: each.date)]
    return [(date, _label(found), found) for date, found in days]


def _label(entries: Sequence[AgendaEntry]) -> str:
    """Return what a day is called by its match, if all squads on it agree."""
    labels = {entry.label for entry in entries}
    return labels.pop() if len(labels) == 1 else ""


def club_index(
    club: str,
    mondays: Sequence[dt.date],
    agendas: Mapping[str, Agenda],
    loads: Mapping[str, Sequence[float]],
) -> str:
    """Return the page that leads to all others, with the load of every room and person.

    Parameters
    ----------
    agendas
        By the name of their files.
    loads
        Hours of each week, by room or person.
    """
    groups = [
        (title, [(each.name, file) for file, each in agendas.items() if each.kind == kind])
        for kind, title in GROUPS.items()
    ]
    return _page(
        "club.html.j2",
        club=club,
        span=f"{mondays[0]:%d %b %Y} to {mondays[-1] + dt.timedelta(days=6):%d %b %Y}",
        groups=[(title, pages) for title, pages in groups if pages],
        loads=[_load(name, hours, mondays) for name, hours in loads.items()],
    )


def _load(name: str, hours: Sequence[float], mondays: Sequence[dt.date]) -> dict[str, Any]:
    most, step = max(hours, default=0.0), WIDE / max(1, len(hours))
    bars = [
        {
            "x": round(at * step, 1),
            "w": round(0.8 * step, 1),
            "h": round(HIGH * value / most, 1) if most else 0,
            "name": f"{mondays[at].day} {mondays[at]:%b}"
            if at % max(1, len(hours) // 5) == 0
            else "",
        }
        for at, value in enumerate(hours)
    ]
    mean = sum(hours) / max(1, len(hours))
    told = f"{mean:.1f} h a week, {most:.1f} h in the fullest"
    if len(hours) == 1:
        # one column is as high as itself, whatever it holds
        told, bars = f"{most:.1f} h", []
    return {"name": name, "told": told, "bars": bars, "wide": WIDE}


def _page(template: str, **told: Any) -> str:
    style = files(PAGES).joinpath("page", "cards.css").read_text(encoding="utf-8")
    return filled_template(PAGES, template, {"style": Markup(style), "note": NOTE, **told})
