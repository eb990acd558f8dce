"""What a season is called that was made from a list."""

import re
from collections.abc import Sequence
from pathlib import Path

from cli.files.fixtures_found import FoundFixtures
from optimiser.domain.fixture import Fixture

#: Words that say of a file that it is a list, and nothing of whose.
OF_ANY_LIST = frozenset(
    {
        *("fixture", "fixtures", "list", "match", "matches", "game", "games", "schedule", "export"),
        *("calendar", "season", "seasons", "plan", "table", "sheet", "book", "download", "copy"),
        *("of", "the", "my", "our", "new", "final", "draft", "all", "data", "file", "csv"),
        *("spielplan", "calendrier", "calendario", "wedstrijden", "untitled", "test", "team"),
    }
)
#: A name has so many letters beside such words.
LETTERS = 4
LONGEST = 120


def season_name(found: FoundFixtures, file: str, fixtures: Sequence[Fixture]) -> str:
    """Return the club or the team that the list tells, or what its name says, else the years."""
    return (found.club or found.team or _of_file(file) or _of_years(fixtures))[:LONGEST]


def _of_file(file: str) -> str:
    # a hyphen between years stays: 2026-27
    words = re.sub(r"_|(?<!\d)-|-(?!\d)", " ", Path(file).stem).split()
    telling = [word for word in words if re.sub(r"[\W\d]", "", word).lower() not in OF_ANY_LIST]
    letters = sum(sign.isalpha() for word in telling for sign in word)
    text = " ".join(words)
    return f"{text[:1].upper()}{text[1:]}" if letters >= LETTERS else ""


def _of_years(fixtures: Sequence[Fixture]) -> str:
    years = sorted({fixture.date.year for fixture in fixtures})
    if not years:
        return "Season"
    return f"Season {years[0]}{f'/{years[-1] % 100:02d}' if years[-1] > years[0] else ''}"
