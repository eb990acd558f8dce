"""The squad of a season folder, entered as lines of names or handed over as a whole file."""

import re
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from cli.files.errors import InputError
from cli.files.own_work import squad_at
from cli.files.read_text import read_text
from cli.files.rows_added import rows_added
from cli.files.safe_cell import safe_cell
from cli.files.scenario_file import Loaded
from cli.season.commit import Action, commit
from cli.season.folder import SQUAD, Folder

COLUMNS = ("name", "group", "body_mass_kg")
#: A name and, behind a comma, a semicolon, a tab or spaces, the body mass in kg.
LINE = re.compile(r"(?P<name>.*?)[,;\s]+(?P<mass>\d+(?:[.,]\d+)?)\s*(?:kg)?")


def enlist(folder: Folder, loaded: Loaded, lines: str) -> int:
    """Add athletes below those of the squad file, and return how many there are then.

    Parameters
    ----------
    lines
        One athlete a line: name and body mass in kg.

    Raises
    ------
    InputError
        If a line or the file cannot be used; nothing is written then.
    """
    made = [_row(number, line) for number, line in enumerate(lines.splitlines(), 1) if line.strip()]
    words = ", ".join(row["name"] for row in made)
    return _write(folder, loaded, words, lambda before: rows_added(before, made, COLUMNS))


def take_squad(folder: Folder, loaded: Loaded, text: str) -> int:
    """Put a whole squad file in the place of the one there, and return how many are in it.

    Raises
    ------
    InputError
        If it cannot be used; nothing is written then.
    """
    return _write(folder, loaded, "a file", lambda _: text)


def athletes_in(loaded: Loaded) -> int | None:
    """Return how many are in the squad file; None where the scenario names none.

    One that cannot be read counts nobody here; who asks for cards is told what is wrong with it.
    """
    named = loaded.scenario.squad_file
    if named is None:
        return None
    path = loaded.path.parent / named
    if not path.is_file():
        return 0
    return sum(bool(line.strip(" ,;\t")) for line in read_text(path).splitlines()[1:])


def _row(number: int, line: str) -> dict[str, str]:
    found = LINE.fullmatch(line.strip())
    if found is None or not found["name"].strip():
        do = "write it as in Anna Berg, 64"
        must = "must be a name and a body mass in kg"
        raise InputError("the squad", f"line {number}", must, line.strip(), do)
    mass = found["mass"].replace(",", ".")
    name = str(safe_cell(found["name"].strip(" ,;\t")))
    return {"name": name, "group": "squad", "body_mass_kg": mass}


def _write(folder: Folder, loaded: Loaded, words: str, change: Callable[[str], str]) -> int:
    if loaded.scenario.squad_file != SQUAD:
        do = f"name {SQUAD} in the scenario (squad_file)"
        got = loaded.scenario.squad_file or "none"
        raise InputError(folder.scenario, "squad_file", "must name the folder's squad", got, do)
    stands = folder.now([SQUAD])
    path = folder.path / SQUAD
    text = change(read_text(path) if path.exists() else "")
    with TemporaryDirectory() as place:
        there = Path(place) / SQUAD
        there.write_text(text, encoding="utf-8")
        try:
            squad = squad_at(there, loaded)
        except InputError as error:
            raise InputError(SQUAD, error.where, error.must, error.got, error.do) from None
    commit(folder, Action("squad", words), {SQUAD: text.encode()}, stands)
    return len(squad.athletes)
