"""The sum that does not come out: what a clash needs and what there is."""

from collections.abc import Iterator
from itertools import pairwise

from optimiser.board.model import Tag
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import counted, listed
from optimiser.explain.clash import Clash


def sums(season: Season, clash: Clash) -> list[str]:
    """Return each sum that the numbers of the demands make, as a sentence."""
    tags = [demand.first for demand in clash.demands]
    return [*_climbs(season, tags), *_minutes_due(season, tags), *_places(season, tags)]


def _climbs(season: Season, tags: list[Tag]) -> Iterator[str]:
    """Rungs between two places a quality must stand on, and the weeks there are for them."""
    for quality in season.qualities:
        places = sorted(
            {
                (tag.week, tag.limit)
                for tag in tags
                if tag.quality == quality.key and tag.subject == "rung"
                if tag.week is not None and tag.limit is not None
            }
        )
        for (week, rung), (later, wanted) in pairwise(places):
            if rung != wanted:
                steps = f"{counted(abs(wanted - rung), 'rung')} {'up' if wanted > rung else 'down'}"
                place, goal = (
                    f"week {number_of(week)} (rung {rung})",
                    f"week {number_of(later)} (rung {wanted})",
                )
                room = _room(season, week, later)
                yield f"{quality.name} needs {steps} from {place} to {goal}; {room}."


def _room(season: Season, week: int, later: int) -> str:
    weeks = sum(not season.weeks[each].closed for each in range(week + 1, later + 1))
    if not weeks:
        return "no week is open for it"
    return f"{counted(weeks, 'week')} {'is' if weeks == 1 else 'are'} open for it"


def _minutes_due(season: Season, tags: list[Tag]) -> Iterator[str]:
    """Minutes that are asked for in a week which must be light."""
    light = {tag.week for tag in tags if tag.subject == "minutes"}
    for week in sorted(each for each in light if each is not None):
        minutes = sum(_minutes(season, tag) for tag in tags if tag.week == week)
        if minutes:
            yield f"What is asked for in week {number_of(week)} adds up to at least {minutes} min."


def _minutes(season: Season, tag: Tag) -> int:
    if tag.quality is None or tag.subject != "dose" or tag.limit is None:
        return 0
    quality = season.qualities[season.keys.index(tag.quality)]
    return min(quality.minutes(Dose(tag.limit), rung) for rung in range(len(quality.bands)))


def _places(season: Season, tags: list[Tag]) -> Iterator[str]:
    """Field and gym work due in one week that holds one session."""
    rooms = {tag.week: tag.limit for tag in tags if tag.subject == "sessions"}
    due = [(tag.week, tag.quality) for tag in tags if tag.subject == "dose" and tag.limit]
    for week in sorted(each for each in rooms if each is not None):
        keys = [key for at, key in due if at == week and key is not None]
        places = sorted({season.qualities[season.keys.index(key)].place for key in keys})
        if len(places) > (rooms[week] or 0):
            need = f"Week {number_of(week)} needs {len(places)} sessions ({listed(places)})"
            yield f"{need} and has room for {rooms[week]}."
