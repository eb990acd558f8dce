"""Who of the squad is there in a week, and how far those are who come back."""

from collections.abc import Mapping
from typing import Any

from cli.files.own_work import read_library
from cli.render.clean_text import clean
from cli.season.attendance import squad_histories, week_attendance
from cli.serve.side import SeasonSide
from optimiser.athlete.availability import DAY, AthleteHistory
from optimiser.athlete.stages import FREE, OUT, STAGES
from optimiser.domain.season import Week

NOT_CLEARED = "out: no work until cleared"


def who_is_there(side: SeasonSide, week: Week) -> dict[str, Any] | None:
    """Return who is there day by day, each who is not whole with the squad, and what a form needs.

    None where the season has no squad.

    Raises
    ------
    InputError
        If the squad file or availability.csv cannot be used.
    """
    squad = squad_histories(side.loaded)
    if not squad:
        return None
    return {
        "words": clean(" ".join(week_attendance(squad, week).split())),
        "people": list(_people(squad, week)),
        "names": [clean(name) for name in squad],
        "limits": sorted(read_library(side.loaded).tags),
        "ladder": [clean(STAGES[level].words) if level else NOT_CLEARED for level in range(FREE)],
    }


def _people(squad: Mapping[str, AthleteHistory], week: Week) -> list[dict[str, Any]]:
    days = [week.monday + step * DAY for step in range(7)]
    return [
        _person(name, history, days)
        for name, history in squad.items()
        if any(history.away(day) or history.stage(day) < FREE for day in days)
    ]


def _person(name: str, history: AthleteHistory, days: list[Any]) -> dict[str, Any]:
    stages = [history.stage(day) for day in days]
    entry = history.entry(days[-1])
    limits = (*entry.tags, *filter(None, [entry.words])) if entry else ()
    return {
        "name": clean(name),
        "stage": stages[-1],
        "away": [history.away(day) for day in days],
        "days": stages,
        "words": clean("; ".join(limits)),
        "since": entry.first.isoformat() if entry and entry.level > OUT else None,
        "asks": [clean(words) for words in history.remarks(days[0], days[-1])],
    }
