"""Which column of a fixture table is which."""

import re
from collections.abc import Sequence
from difflib import SequenceMatcher

from cli.files.fixtures_clubs import AWAY, HOME
from optimiser.domain.fixture import Fixture

COLUMNS = tuple(Fixture.model_fields)
#: Rows above the header that may hold a title.
TITLE_ROWS = 20
# So like a column's name that it can only be that one, misspelt.
MISSPELT = 0.9
#: Columns that are read for words such as postponed, and are no part of a fixture.
STATUS, KIND = "status", "type"
SAID = {
    "date": ("matchdate", "dateofmatch", "fixturedate", "datum", "fecha", "data", "dato"),
    "kickoff": (
        *("ko", "time", "starttime", "kickofftime", "kotime", "start", "throwin"),
        *("pushback", "tipoff", "faceoff", "puckdrop", "tapoff", "startsat"),
        *("zeit", "uhrzeit", "anpfiff", "heure", "hora", "tijd"),
    ),
    "opponent": (
        *("opposition", "opponents", "against", "versus", "vs", "fixture"),
        *("gegner", "adversaire", "rival", "avversario", "tegenstander"),
    ),
    "competition": ("comp", "tournament", "event", "wettbewerb", "competicion", "competizione"),
    "venue": ("ha", "homeaway", "haorn", "han", "homeoraway"),
    "priority": ("importance",),
    "minutes": ("minute", "mins"),
    "travel_hours": ("travel", "travelh"),
    "target": ("readinesstarget",),
    "weight": (),
    HOME: ("hometeam", "homeclub", "homeside"),
    AWAY: ("awayteam", "awayclub", "awayside", "visitors", "visitor"),
    STATUS: (),
    KIND: ("kind", "eventtype"),
}


def column_of(name: str) -> str:
    """Return the column that ``name`` means, or an empty string."""
    plain = re.sub(r"\(.*?\)|[\W_]", "", name.lower())
    for column, said in SAID.items():
        if plain in (column.replace("_", ""), *said):
            return column
    return ""


def has_date(cells: Sequence[str]) -> bool:
    """Return whether a row can be the one that names the columns."""
    return any(column_of(cell) == "date" for cell in cells)


def misspelt(name: str) -> str:
    """Return the column that ``name`` is a slip of the pen for, or an empty string."""
    plain = name.strip().lower()
    return next(
        (column for column in COLUMNS if SequenceMatcher(None, plain, column).ratio() >= MISSPELT),
        "",
    )


def best_separator(lines: Sequence[str]) -> str:
    """Return the sign between the cells: comma, semicolon or tab."""
    if lines and lines[0].strip().lower().startswith("sep="):
        return lines[0].strip()[4:5] or ","
    known = {
        sign: max((_known(line.split(sign)) for line in lines[:TITLE_ROWS]), default=0)
        for sign in (",", ";", "\t")
    }
    if not any(known.values()):
        # no name that is known: the sign that stands in most lines
        held = lines[:TITLE_ROWS]
        known = {sign: sum(sign in line for line in held) for sign in (";", "\t", ",")}
    return max(known, key=lambda sign: known[sign])


def _known(cells: Sequence[str]) -> int:
    plain = [cell.strip().strip('"') for cell in cells]
    return sum(bool(column_of(cell)) for cell in plain) if has_date(plain) else 0
