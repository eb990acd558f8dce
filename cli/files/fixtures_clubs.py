"""A whole league's fixtures in one list: home, away and date; each club's own from it."""

from collections.abc import Sequence
from pathlib import Path

from cli.files.errors import InputError
from cli.files.fixtures_found import ListFacts
from cli.files.known_keys import nearest

HOME, AWAY = "home", "away"
#: What stands where a club is not known yet.
NOT_KNOWN = ("tbc", "tba", "tbd", "bye", "-", "?")
#: Clubs named in a message.
NAMED = 12

Given = tuple[str, dict[str, str]]


def is_league(columns: Sequence[str]) -> bool:
    """Return whether a table says who plays whom, and not one club's opponents."""
    return HOME in columns and AWAY in columns and "opponent" not in columns


def clubs_of(rows: Sequence[Given]) -> tuple[str, ...]:
    """Return every club of a league's rows, by name."""
    return tuple(
        sorted(
            {
                cells[side]
                for _, cells in rows
                for side in (HOME, AWAY)
                if cells.get(side, "").lower() not in ("", *NOT_KNOWN)
            }
        )
    )


def club_of_all(rows: Sequence[Given]) -> str:
    """Return the club that plays in every row, so that the list is its own; "" if there is none."""
    every = [{cells.get(HOME), cells.get(AWAY)} for _, cells in rows if _is_known(cells)]
    found = [club for club in clubs_of(rows) if all(club in sides for sides in every)]
    return found[0] if len(found) == 1 else ""


def _is_known(cells: dict[str, str]) -> bool:
    """Tell whether a row names a club; a final does not, before its clubs are known."""
    return any(cells.get(side, "").lower() not in ("", *NOT_KNOWN) for side in (HOME, AWAY))


def rows_of_club(path: Path, rows: Sequence[Given], asked: ListFacts) -> tuple[str, list[Given]]:
    """Return the club that was asked for and its rows, opponent and venue filled in.

    Raises
    ------
    InputError
        If no club was asked for, or none has that name.
    """
    clubs = clubs_of(rows)
    wanted = asked.club or club_of_all(rows)
    club = next((name for name in clubs if name.casefold() == wanted.casefold()), None)
    if club is None:
        raise _no_club(path, clubs, asked.club)
    found = []
    for where, cells in rows:
        if not asked.club and not _is_known(cells):
            # of one club's own list a final belongs to it, before its sides are known
            found.append((where, {"opponent": "", **cells}))
        elif club in (cells.get(HOME), cells.get(AWAY)):
            at = HOME if cells.get(HOME) == club else AWAY
            other = AWAY if at == HOME else HOME
            own = {name: cell for name, cell in cells.items() if name not in (HOME, AWAY)}
            found.append((where, {**own, "opponent": cells.get(other, ""), "venue": at}))
    return club, found


def _no_club(path: Path, clubs: Sequence[str], asked: str) -> InputError:
    named = ", ".join(clubs[:NAMED]) + (", ..." if len(clubs) > NAMED else "")
    if not asked:
        must = "is a whole league's list: one club must be asked for"
        do = "name yours by `seasonwright new --club`, or make every club's season by "
        do += f"`seasonwright league {path.name}`; clubs: {named}"
        return InputError(path, "", must, f"{len(clubs)} clubs", do)
    close = nearest(asked, {club.lower() for club in clubs})
    meant = next((club for club in clubs if club.lower() == close), "")
    do = f"did you mean {meant}?" if meant else f"clubs: {named}"
    return InputError(path, "", "must have the club asked for", asked, do)
