"""The sum that does not come out: what a clash needs and what there is."""

import re
from collections.abc import Iterator
from itertools import pairwise

from cli.render.grouping import and_words
from optimiser.domain.quality import Dose, dose_of
from optimiser.domain.season import Season
from optimiser.explain.clash import Clash
from optimiser.explain.costs import kind_of
from optimiser.explain.demand import Demand

RESTART = re.compile(r"restarts at rung (\d+)")
BAND = re.compile(r"pinned to band (\S+) in")
DOSE = re.compile(r"pinned to dose (\w+) in")
SESSIONS = re.compile(r"(?:at most|days for) (\d+) session")
LIGHT = {(rule, part) for rule in ("taper", "deload", "reentry") for part in ("volume", "of_full")}


def sums(season: Season, clash: Clash) -> list[str]:
    """Return each sum that can be read off the demands, as a sentence."""
    return [*_climbs(season, clash), *_pinned_minutes(season, clash), *_places(season, clash)]


def _climbs(season: Season, clash: Clash) -> Iterator[str]:
    """Rungs between two places a quality must stand on, and the weeks there are for them."""
    for quality in season.qualities:
        here = [demand for demand in clash.demands if demand.key.quality == quality.key]
        places = sorted({place for demand in here for place in _stand(season, demand)})
        for (week, rung), (later, wanted) in pairwise(places):
            if rung == wanted:
                continue
            way = "up" if wanted > rung else "down"
            weeks = sum(not season.weeks[each].closed for each in range(week + 1, later + 1))
            place, goal = (
                f"week {week + 1} (rung {rung + 1})",
                f"week {later + 1} (rung {wanted + 1})",
            )
            steps = _count(abs(wanted - rung), "rung")
            yield f"{quality.name} needs {steps} {way} from {place} to {goal}; {_room(weeks)}."


def _room(weeks: int) -> str:
    if not weeks:
        return "no week is open for it"
    return f"{_count(weeks, 'week')} {'is' if weeks == 1 else 'are'} open for it"


def _stand(season: Season, demand: Demand) -> Iterator[tuple[int, int]]:
    """Yield the week and rung (from 0) that a demand ties its quality to."""
    week, key = demand.key.week, demand.key.quality
    if week is None or key is None:
        return
    restart, band = RESTART.search(demand.says[0]), BAND.search(demand.says[0])
    if restart:
        yield week, int(restart[1]) - 1
    elif band:
        codes = [each.code for each in season.qualities[season.keys.index(key)].bands]
        rung = codes.index(band[1]) if band[1] in codes else int(band[1]) - 1
        yield week, rung


def _pinned_minutes(season: Season, clash: Clash) -> Iterator[str]:
    """Minutes that are pinned in a week which must be light."""
    light = {d.key.week for d in clash.demands if kind_of(d.key) in LIGHT}
    for week in sorted(each for each in light if each is not None):
        minutes = sum(_minutes(season, each) for each in clash.demands if each.key.week == week)
        if minutes:
            yield f"What is asked for in week {week + 1} adds up to at least {minutes} min."


def _minutes(season: Season, demand: Demand) -> int:
    if demand.key.quality is None:
        return 0
    quality = season.qualities[season.keys.index(demand.key.quality)]
    dose = DOSE.search(demand.says[0])
    if dose:
        return quality.minutes(dose_of(dose[1]))
    alone = demand.rule == "exposure" and " in week " in demand.says[0]
    return quality.minutes(Dose.TOUCH) if alone else 0


def _places(season: Season, clash: Clash) -> Iterator[str]:
    """Field and gym work due in one week that holds one session."""
    rooms = {
        d.key.week: int(found[1])
        for d in clash.demands
        if (found := SESSIONS.search(d.says[0])) and d.key.week is not None
    }
    for week, room in sorted(rooms.items()):
        due = [
            season.qualities[season.keys.index(d.key.quality)].place
            for d in clash.demands
            if d.rule == "exposure" and d.key.week == week and d.key.quality
        ]
        places = sorted(set(due))
        if len(places) > room:
            yield (
                f"Week {week + 1} needs {len(places)} sessions ({and_words(places)}) and has room "
                f"for {room}."
            )


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"
