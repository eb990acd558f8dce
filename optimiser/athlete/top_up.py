"""Who played little: runs near top speed and a short piece of conditioning, or none.

Players with little of a match miss its sprints and its running; a top-up within a day or two makes
up for some of it (review: Hills et al. 2018, Sports Medicine, from memory). Amounts are the
coach's: two to four runs over 90 % of top speed and 6 to 10 minutes of intervals are common
practice, no source.
"""

import datetime as dt
from collections.abc import Collection, Iterable, Iterator, Mapping

from optimiser.athlete.hold import Hold
from optimiser.athlete.squad import Athlete, Group
from optimiser.athlete.stages import FREE
from optimiser.domain.strict import Strict

#: Minutes of a match from which there is none.
ENOUGH = 30.0
#: Runs and minutes of intervals: least and most, by how little was played.
RUNS, INTERVALS = (2, 4), (6, 10)
RUN_METRES = 30.0
#: Days after the match on which it may stand, and days it stays away from the next one.
AFTER, BEFORE = (1, 2), 2
#: Restrictions that rule out the runs, and the bike that takes the place of running.
NO_RUNS = frozenset({"hamstring", "groin", "calf", "ankle", "foot", "knee", "hip", "impact"})
NO_BIKE = frozenset({"knee", "hip"})


class Match(Strict):
    """A match of the club; ``minutes`` of the athlete in it, None if nobody wrote them down."""

    date: dt.date
    minutes: float | None = None


class TopUp(Strict):
    """What makes up for one match.

    Parameters
    ----------
    days
        One of these.
    runs
        Of `RUN_METRES` over 90 % of top speed; 0 where none may be run.
    intervals
        Minutes, on a bike where ``runs`` is 0.
    """

    match: dt.date
    minutes: float
    days: tuple[dt.date, ...]
    runs: int
    intervals: int

    @property
    def words(self) -> str:
        """Say it to the athlete."""
        days = " or ".join(f"{day:%a %d %b}" for day in self.days)
        run = f"{self.runs} x {RUN_METRES:g} m over 90 % of top speed, 2-3 min rest, then "
        work = f"{run if self.runs else ''}{self.intervals} min of intervals"
        return (
            f"top-up for {self.match:%a %d %b} ({self.minutes:g} min played), once, on {days}, "
            f"after a full warm-up: {work}{'' if self.runs else ' on a bike'}"
        )


def top_ups(
    athlete: Athlete,
    matches: Iterable[Match],
    monday: dt.date,
    hold: Hold,
    banned: Collection[str] = (),
    gone: Collection[dt.date] = (),
) -> list[TopUp]:
    """Return the top-ups of a week; none on the way back, in the weeks after time off, or too late.

    Parameters
    ----------
    matches
        Of the club, the last days of the week before and the first of the next among them.
    banned
        Restrictions that hold.
    gone
        Days the athlete is not there.
    """
    if hold.stage < FREE or not hold.free:
        return []
    listed = sorted(matches, key=lambda match: match.date)
    later = [match.date for match in listed]
    found = (_top_up(athlete, each, later, monday, banned, gone) for each in listed)
    return [each for each in found if each]


def _top_up(
    athlete: Athlete,
    match: Match,
    matches: list[dt.date],
    monday: dt.date,
    banned: Collection[str],
    gone: Collection[dt.date],
) -> TopUp | None:
    minutes = match.minutes
    if minutes is None and athlete.group is Group.NON_PLAYING:
        minutes = 0.0
    days = tuple(_days(match.date, matches, gone))
    if not any(0 <= (day - monday).days < 7 for day in days):
        return None
    runs_off, bike_off = NO_RUNS & set(banned), NO_BIKE & set(banned)
    if minutes is None or minutes >= ENOUGH or (runs_off and bike_off):
        return None
    # under 18 the least of both
    share = 0.0 if athlete.young else 1 - minutes / ENOUGH
    runs, intervals = (low + round(share * (high - low)) for low, high in (RUNS, INTERVALS))
    return TopUp(
        match=match.date,
        minutes=minutes,
        days=days,
        runs=0 if runs_off else runs,
        intervals=intervals,
    )


def _days(match: dt.date, matches: list[dt.date], gone: Collection[dt.date]) -> Iterator[dt.date]:
    """Yield the days on which it may stand."""
    for after in range(AFTER[0], AFTER[1] + 1):
        day = match + dt.timedelta(days=after)
        near = any(match < other <= day + dt.timedelta(days=BEFORE - 1) for other in matches)
        if not near and day not in gone:
            yield day


def matches_around(
    dates: Iterable[dt.date], monday: dt.date, played: Mapping[dt.date, float]
) -> list[Match]:
    """Return the matches that matter to a week, with the minutes an athlete played."""
    first, last = monday - dt.timedelta(days=AFTER[1]), monday + dt.timedelta(days=6 + BEFORE)
    return [Match(date=day, minutes=played.get(day)) for day in dates if first <= day <= last]
