"""A plan played through day by day, in floats: a second opinion on the weekly model.

The solver's tables and ``optimiser.review.score`` count a week's training as one dose at its end.
Here each quality's work is put on days of its own, away from matches, and fitness and fatigue are
carried from day to day; what a match gives a quality is added on its evening. Readiness is read on
the morning of a match. It shares no code with either.
"""

import datetime as dt
from dataclasses import dataclass
from math import exp

from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Quality
from optimiser.domain.season import Season, Week

#: What a day gives and takes.
Work = tuple[float, float]
WEIGHTS = {Priority.PEAK: 4, Priority.HIGH: 3, Priority.MEDIUM: 2, Priority.LOW: 1}
#: Weeks after which the reference athlete is steady.
STEADY_WEEKS = 150


@dataclass(frozen=True)
class Days:
    """Readiness on the morning of each day, in points; 100 is the rested top.

    Parameters
    ----------
    dates
        From the first Monday to the last Sunday.
    ready
        Weighted mean of the qualities, less what earlier matches still cost.
    """

    dates: tuple[dt.date, ...]
    ready: tuple[float, ...]

    def on(self, date: dt.date) -> float:
        """Return readiness on one morning."""
        return self.ready[(date - self.dates[0]).days]


def simulate(season: Season, plan: Plan) -> Days:
    """Play a plan through day by day."""
    dates = [week.monday + dt.timedelta(days=day) for week in season.weeks for day in range(7)]
    total = sum(quality.weight for quality in season.qualities)
    ready = [-_match_cost(season, date) for date in dates]
    for index, quality in enumerate(season.qualities):
        for day, level in enumerate(_levels(season, plan, index)):
            ready[day] += quality.weight / total * level
    return Days(tuple(dates), tuple(ready))


def _levels(season: Season, plan: Plan, index: int) -> list[float]:
    """Return one quality's level on each morning, in points."""
    quality = season.qualities[index]
    work: dict[int, Work] = {}
    for week in season.weeks:
        rung, dose = plan.rungs[index][week.index], plan.doses[index][week.index]
        if rung is not None and dose is not Dose.NONE:
            days = session_days(season, week, 1 if dose is Dose.TOUCH else 2)
            work |= {7 * week.index + day: _share(quality, rung, dose, len(days)) for day in days}
    scale = 100 * season.reach / _rested_top(quality, season.fatigue_scale)
    fading = _Athlete(quality, season.fatigue_scale)
    played = _played(season, quality)
    levels = []
    for day in range(7 * len(season.weeks)):
        left = quality.start * exp(-day / quality.tau_fitness)
        levels.append(left + scale * fading.net())
        give, take = work.get(day, (0.0, 0.0))
        fading.live((give + played.get(day, 0.0), take))
    return levels


def _played(season: Season, quality: Quality) -> dict[int, float]:
    """Return what matches give a quality by day; what they take is a cost of its own."""
    whole = quality.match_gain * quality.bands[-1].gain * quality.doses.full.gain
    given: dict[int, float] = {}
    for fixture in season.fixtures:
        day = (fixture.date - season.weeks[0].monday).days
        minutes = fixture.minutes or season.match_minutes
        given[day] = given.get(day, 0.0) + whole * minutes / season.match_minutes
    return given


class _Athlete:
    """Fitness and fatigue carried from one morning to the next."""

    def __init__(self, quality: Quality, fatigue_scale: float) -> None:
        self._fit_kept = exp(-1 / quality.tau_fitness)
        self._tired_kept = exp(-1 / quality.tau_fatigue)
        self._harm = fatigue_scale * quality.fatigue_ratio
        self._fitness = self._fatigue = 0.0

    def net(self) -> float:
        """Return fitness less fatigue."""
        return self._fitness - self._harm * self._fatigue

    def live(self, work: Work | None) -> None:
        """Train, or not, and sleep."""
        give, take = work or (0.0, 0.0)
        self._fitness = (self._fitness + give) * self._fit_kept
        self._fatigue = (self._fatigue + take) * self._tired_kept


def _share(quality: Quality, rung: int, dose: Dose, days: int) -> Work:
    """Return what one of ``days`` sessions of a week's work gives and takes."""
    spec = {
        Dose.TOUCH: quality.doses.touch,
        Dose.REDUCED: quality.doses.reduced,
        Dose.FULL: quality.doses.full,
    }[dose]
    full = quality.doses.full
    band = quality.bands[rung]
    strain = band.strain * spec.minutes * spec.rpe / (full.minutes * full.rpe)
    return band.gain * spec.gain / days, strain / days


def _rested_top(quality: Quality, fatigue_scale: float) -> float:
    """Return the net level after years on the top rung and two lighter weeks, on a Sunday."""
    athlete = _Athlete(quality, fatigue_scale)
    top = len(quality.bands) - 1
    doses = [Dose.FULL] * STEADY_WEEKS + [Dose.REDUCED, Dose.TOUCH]
    for number, dose in enumerate(doses):
        days = (2,) if dose is Dose.TOUCH else (1, 3)
        for day in range(7):
            if number == len(doses) - 1 and day == 6:
                break
            athlete.live(_share(quality, top, dose, len(days)) if day in days else None)
    return athlete.net()


def session_days(season: Season, week: Week, count: int) -> list[int]:
    """Return the days (0 Monday to 6 Sunday) for ``count`` sessions of one quality.

    Days farthest from the nearest match come first, then those farthest from each other; match
    days and days of rest come last, for a week that has nothing else.
    """
    dates = [week.monday + dt.timedelta(days=day) for day in range(7)]
    matches = [fixture.date for fixture in season.fixtures]
    resting = [item for item in week.breaks if item.kind == "rest"]

    def room(day: int) -> tuple[bool, int]:
        off = any(item.first <= dates[day] <= item.last for item in resting)
        near = min((abs((dates[day] - match).days) for match in matches), default=7)
        return not off and near > 0, min(near, 3)

    chosen: list[int] = []
    while len(chosen) < count:
        free = [day for day in range(7) if day not in chosen]
        chosen.append(max(free, key=lambda day: (room(day), _apart(day, chosen), -day)))
    return sorted(chosen)


def _apart(day: int, chosen: list[int]) -> int:
    return min((abs(day - other) for other in chosen), default=0)


def _match_cost(season: Season, date: dt.date) -> float:
    """Return what matches before ``date`` still cost, in points."""
    cost = 0.0
    for fixture in season.fixtures:
        gone = (date - fixture.date).days
        if gone > 0:
            played = fixture.minutes or season.match_minutes
            fresh = season.match_fatigue * played / season.match_minutes
            fresh += season.travel_fatigue * fixture.travel_hours
            cost += fresh * exp(-gone / season.match_tau)
    return cost


def match_readiness(season: Season, plan: Plan) -> float:
    """Return how much of its target a plan reaches at fixtures by this simulation, 0-100.

    Fixtures weigh 3, 2 and 1 by priority; above the target counts as the target.
    """
    days = simulate(season, plan)
    reached = weights = 0.0
    for week in season.weeks:
        for fixture in week.fixtures:
            share = days.on(fixture.date) / week.target if week.target > 0 else 1.0
            reached += WEIGHTS[fixture.priority] * min(1.0, max(0.0, share))
            weights += WEIGHTS[fixture.priority]
    return 100 * reached / weights if weights else 100.0
