"""Season files of every club of a real league, from one list of who plays whom."""

import re
from collections.abc import Sequence
from pathlib import Path

from cli.files.fixtures_file import clubs_in, find_fixtures
from cli.files.fixtures_found import DateOrder, FoundFixtures, ListFacts, found_words
from cli.files.fixtures_frame import frame_with_friendlies
from cli.files.fixtures_notices import season_notices
from cli.files.fixtures_priorities import best_by_date, proposals
from cli.render.scenario_text import Draft, scenario_text
from optimiser.setup.calendar import PRE_SEASON_WEEKS
from optimiser.setup.frame import OFF_SEASON_WEEKS, priorities_needed


def league_scenarios(
    path: Path, dates: DateOrder, year: int = 0
) -> tuple[dict[str, str], list[str]]:
    """Return the text of a scenario for every club in the list ``path``, by file name.

    Beside it stands what was understood of the list.

    Raises
    ------
    InputError
        If the list cannot be used.
    """
    found = [
        find_fixtures(path, ListFacts(dates=dates, club=name, year=year)) for name in clubs_in(path)
    ]
    texts = {
        f"{number:02d}_{_plain(each.club)}.toml": _season(path, each)
        for number, each in enumerate(found, 1)
    }
    return texts, _words(path.name, found)


def _words(name: str, found: Sequence[FoundFixtures]) -> list[str]:
    """Return what was read of a league's list, and once each what was left out of it."""
    counts = [len(each.listed) for each in found]
    least, most = min(counts), max(counts)
    each_has = f"{least} to {most}" if least < most else f"{most}"
    head = f"{name}: {found[0].rows} rows: {len(found)} clubs, {each_has} matches each"
    told = [line for each in found for line in found_words(name, each)[1:]]
    return [head, *dict.fromkeys(told)]


def _plain(name: str) -> str:
    return re.sub(r"\W+", "_", name.lower()).strip("_")[:60] or "club"


def _season(path: Path, found: FoundFixtures) -> str:
    fixtures = [item.fixture for item in found.listed]
    proposed = [] if found.ranked else proposals(fixtures)
    frame = frame_with_friendlies(
        path, fixtures, off_season=OFF_SEASON_WEEKS, pre_season=PRE_SEASON_WEEKS
    )
    best = best_by_date(proposed)
    ranks = {date: item.priority for date, item in best.items()} or priorities_needed(fixtures)
    draft = Draft(
        name=found.club,
        sport="",
        fixtures_file="",
        fixtures=fixtures,
        frame=frame,
        priorities=ranks,
        proposed={date: item.words for date, item in best.items()},
        notices=[*found.notices, *season_notices(fixtures, ranks, frame)],
    )
    return scenario_text(draft)
