"""Season files of every club of a real league, from one list of who plays whom."""

import re
from pathlib import Path

from cli.files.fixtures_file import clubs_in, find_fixtures
from cli.files.fixtures_found import Asked, DateOrder
from cli.files.fixtures_frame import frame_with_friendlies
from cli.files.fixtures_priorities import proposals
from cli.render.scenario_text import Draft, scenario_text
from optimiser.calendar import PRE_SEASON_WEEKS
from optimiser.season_frame import OFF_SEASON_WEEKS, priorities_needed


def club_files(path: Path, dates: DateOrder) -> dict[str, str]:
    """Return the text of a scenario for every club in the list ``path``, by file name.

    Raises
    ------
    InputError
        If the list cannot be used.
    """
    names = enumerate(clubs_in(path), 1)
    return {
        f"{number:02d}_{_plain(name)}.toml": _season(path, name, dates) for number, name in names
    }


def _plain(name: str) -> str:
    return re.sub(r"\W+", "_", name.lower()).strip("_")[:60] or "club"


def _season(path: Path, club: str, dates: DateOrder) -> str:
    found = find_fixtures(path, Asked(dates=dates, club=club))
    fixtures = [item.fixture for item in found.listed]
    proposed = [] if found.ranked else proposals(fixtures)
    frame = frame_with_friendlies(
        path, fixtures, off_season=OFF_SEASON_WEEKS, pre_season=PRE_SEASON_WEEKS
    )
    draft = Draft(
        name=club,
        sport="",
        fixtures_file="",
        fixtures=fixtures,
        frame=frame,
        priorities={item.date: item.priority for item in proposed} or priorities_needed(fixtures),
        proposed={item.date: item.words for item in proposed},
    )
    return scenario_text(draft)
