"""What the cells of a row say of one match, in the columns of a fixture."""

from collections.abc import Sequence

from cli.files.fixtures_columns import GROUND, KIND, ROUND
from cli.files.fixtures_dates import clock
from cli.files.fixtures_places import opponent_and_place, place_of
from cli.files.fixtures_rows import HEADING, Given, competition_of, given_by
from cli.files.fixtures_words import off_kind
from optimiser.domain.wording import listed

#: What stands where a ground is not known yet.
NOT_KNOWN = ("tbc", "tba", "tbd", "-", "?", "n/a")
#: Grounds named in a sentence.
FEW = 4


def one_match_said(given: Sequence[Given]) -> tuple[list[Given], list[str]]:
    """Return rows with the opponent, venue and competition as a fixture has them, and notices."""
    notices = [*_venues(given), *_times(given)]
    for _, cells in given:
        _opponent(cells)
        _competition(cells)
    return list(given), notices


def _venues(given: Sequence[Given]) -> list[str]:
    """Keep home, away and neutral of the columns that say so; grounds are left out."""
    grounds = []
    for _, cells in given:
        told = [cells.pop(column, "") for column in ("venue", GROUND)]
        place = next((place for cell in told if (place := place_of(cell))), "")
        grounds += [cell for cell in told if cell and not place and cell.lower() not in NOT_KNOWN]
        if place:
            cells["venue"] = place
    if not grounds:
        return []
    if not given_by(given, "venue"):
        return ["the venue is left out, as no row says home, away or neutral"]
    named = list(dict.fromkeys(grounds))
    more = f" and {len(named) - FEW} more" if len(named) > FEW else ""
    words = ", ".join(named[:FEW]) + more if more else listed(named)
    return [f"not said to be home, away or neutral, so left open: {words}"]


def _times(given: Sequence[Given]) -> list[str]:
    """Name what stands for a kick-off and is no time."""
    words = {
        cells["kickoff"]: where
        for where, cells in given
        if not any(sign.isdigit() for sign in cells.get("kickoff", "0"))
        and cells["kickoff"].lower() not in NOT_KNOWN
        and clock(cells["kickoff"]) is None
        and not off_kind(cells["kickoff"])
    }
    told = [f"{text} ({where})" for text, where in list(words.items())[:FEW]]
    return [f"no time, so the kick-off is left open: {', '.join(told)}"] if told else []


def _opponent(cells: dict[str, str]) -> None:
    if "opponent" in cells:
        cells["opponent"], place = opponent_and_place(cells["opponent"])
        if place:
            cells.setdefault("venue", place)


def _competition(cells: dict[str, str]) -> None:
    """Put together what tells the competition: its column, else the kind or the heading above."""
    heading = competition_of(cells.get(HEADING, ""))
    told = cells.get("competition") or cells.get(KIND, "") or heading
    stage = cells.get(ROUND, "")
    words = [told, stage if any(sign.isalpha() for sign in stage) else ""]
    if any(words):
        cells["competition"] = " ".join(filter(None, words))
