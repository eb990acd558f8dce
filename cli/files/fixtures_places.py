"""Home, away or neutral, as lists say it."""

import re
from typing import Literal

from cli.files.fixtures_months import bare

Place = Literal["", "home", "away", "neutral"]
NOWHERE: Place = ""
WORDS: dict[Place, tuple[str, ...]] = {
    "home": ("h", "home", "heim", "zuhause", "domicile", "dom", "casa", "thuis", "hem", "hjemme"),
    "away": (
        *("a", "away", "auswarts", "ausw", "exterieur", "ext", "fuera", "trasferta", "uit", "@"),
        *("borta", "ude", "visitante"),
    ),
    "neutral": ("n", "neutral", "neutre", "neutraal", "neutr", "neut"),
}
SAID = {word: place for place, words in WORDS.items() for word in words}
#: A word of the list with the ground behind it: "Home (3G)", "A - Moor Lane".
WITH_GROUND = re.compile(r"([^\W\d_]+)\s*[-–(:,/@].*|([^\W\d_]{4,})\b.*", re.S)
BEFORE = re.compile(r"(vs?\.?|versus|against|gegen|at|@|away to|home to)\s+(?=\S)|@", re.I)
BEHIND = re.compile(r"\s*[(\[]\s*([^\W\d_]+)\s*[)\]]\s*$")
#: What stands before an opponent, and where it says that the match is.
PREFIXES: dict[str, Place] = {"at": "away", "@": "away", "away to": "away", "home to": "home"}


def place_of(cell: str) -> Place:
    """Return ``home``, ``away`` or ``neutral``, or an empty string if a cell says none."""
    plain = bare(cell.strip()).rstrip(".")
    if plain in SAID:
        return SAID[plain]
    found = WITH_GROUND.fullmatch(plain)
    return SAID.get(found[1] or found[2], NOWHERE) if found else NOWHERE


def is_place(cell: str) -> bool:
    """Return whether a cell is a word for home, away or neutral and nothing else."""
    return bare(cell.strip()).rstrip(".") in SAID


def opponent_and_place(text: str) -> tuple[str, Place]:
    """Return an opponent without the words around it, and home or away if those say so.

    ``at Ashby``, ``vs. Ashby`` and ``Ashby (H)`` are all Ashby.
    """
    name, place = text.strip(), NOWHERE
    behind = BEHIND.search(name)
    if behind and behind.start() and bare(behind[1]) in SAID:
        name, place = name[: behind.start()], SAID[bare(behind[1])]
    before = BEFORE.match(name)
    if before:
        said = (before[1] or "@").lower()
        name, place = name[before.end() :], place or PREFIXES.get(said, NOWHERE)
    return name.strip(), place
