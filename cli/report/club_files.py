"""What is written for a club: pages, PDF and calendars by squad, room, coach and athlete."""

import datetime as dt
import re
from collections.abc import Sequence
from pathlib import Path

from cli.club import ClubWeek, PlannedSquad
from cli.club_agenda import Agenda, Kind, athlete_agendas, pool_agenda, squad_agendas
from cli.files.safe_write import write_bytes, write_text
from cli.render.clean_text import clean
from cli.report.agenda_calendar import agenda_calendar
from cli.report.agenda_print import agenda_pdf
from cli.report.club_pages import agenda_page, club_index
from optimiser.days.shared import Pool, hours_in

UNSAFE = re.compile(r"[^\w-]+")
LONGEST = 60


def club_files(
    out: Path,
    club: str,
    squads: Sequence[PlannedSquad],
    pools: Sequence[Pool],
    kinds: Sequence[Kind],
    weeks: Sequence[ClubWeek],
) -> int:
    """Write the files of a club into a folder and return how many there are.

    Parameters
    ----------
    kinds
        What each pool is.
    """
    named, now = _named(_agendas(squads, pools, kinds, weeks)), dt.datetime.now(dt.UTC)
    for file, agenda in named.items():
        write_text(out / f"{file}.html", agenda_page(club, agenda))
        write_bytes(out / f"{file}.pdf", agenda_pdf(club, agenda))
        write_bytes(out / f"{file}.ics", agenda_calendar(club, agenda, now))
    loads = {pool.name: [hours_in(week.booked, pool) for week in weeks] for pool in pools}
    mondays = [week.monday for week in weeks]
    write_text(out / "index.html", club_index(club, mondays, named, loads))
    return 3 * len(named) + 1


def _agendas(
    squads: Sequence[PlannedSquad],
    pools: Sequence[Pool],
    kinds: Sequence[Kind],
    weeks: Sequence[ClubWeek],
) -> list[Agenda]:
    of_squads = squad_agendas(squads, pools, weeks)
    rooms = [pool_agenda(pool, kind, of_squads) for pool, kind in zip(pools, kinds, strict=True)]
    people = [
        athlete
        for agenda, squad in zip(of_squads, squads, strict=True)
        for athlete in athlete_agendas(agenda, squad.people, squad.young)
    ]
    return [*of_squads, *rooms, *people]


def _named(agendas: Sequence[Agenda]) -> dict[str, Agenda]:
    """Return agendas by names that files can have, no two alike whatever the case."""
    found: dict[str, Agenda] = {}
    for agenda in agendas:
        usual = UNSAFE.sub("-", f"{agenda.kind}-{clean(agenda.name)}".lower()).strip("-")[:LONGEST]
        name, more = usual, 2
        while name in found:
            name, more = f"{usual}-{more}", more + 1
        found[name] = agenda
    return found
