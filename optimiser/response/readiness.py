"""Two-constant impulse response, in readiness points: floats for people, whole numbers for solvers.

A week's training raises fitness at once and fatigue with it; both fade exponentially, fatigue
faster. Sums are inclusive: the training of week ``w`` counts undecayed at the end of week ``w``.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.quality import Dose, Quality
from optimiser.domain.season import OutsideLoad, Season, Week

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

#: Whole-number kernel units in one readiness point.
UNITS = 10_000


def units(points: float) -> int:
    """Return readiness points in the kernel's whole units."""
    return round(points * UNITS)


def decay(tau: float, weeks: npt.ArrayLike) -> Floats:
    """Return the share of an effect left after some weeks.

    Parameters
    ----------
    tau
        Time constant, in days.
    weeks
        Weeks passed, any shape.

    References
    ----------
    Calvert, Banister, Savage and Bach (1976), IEEE Trans. SMC 6(2): 94-102.
    """
    share: Floats = np.exp(-7.0 * np.asarray(weeks, dtype=np.float64) / tau)
    return share


def gains(quality: Quality) -> Floats:
    """Return the stimulus of every band and dose, shape ``(bands, 4)``, unitless."""
    doses = quality.doses
    by_dose = np.array([0.0, doses.touch.gain, doses.reduced.gain, doses.full.gain])
    return np.outer([band.gain for band in quality.bands], by_dose)


def strains(quality: Quality) -> Floats:
    """Return the fatigue of every band and dose, shape ``(bands, 4)``, unitless.

    A dose counts by its share of the full dose's work.
    """
    by_dose = np.array([quality.strain(dose) for dose in Dose])
    return np.outer([band.strain for band in quality.bands], by_dose)


def rested_top(quality: Quality, fatigue_scale: float) -> float:
    """Return the raw response that counts as 100 points.

    It is the steady state on the top rung at full dose, rested by one reduced and one touch week.

    Raises
    ------
    ValueError
        If fatigue would outweigh fitness, so that no scale exists.
    """
    gain, strain = gains(quality)[-1], strains(quality)[-1]
    fit, tired = decay(quality.tau_fitness, 1), decay(quality.tau_fatigue, 1)
    fitness, fatigue = gain[3] / (1 - fit), strain[3] / (1 - tired)
    for dose in (Dose.REDUCED, Dose.TOUCH):
        fitness, fatigue = fitness * fit + gain[dose], fatigue * tired + strain[dose]
    top = float(fitness - fatigue_scale * quality.fatigue_ratio * fatigue)
    if top <= 0:
        raise ValueError(
            f"fatigue of {quality.key} outweighs what training gives; "
            "lower its fatigue_ratio or the fatigue_scale"
        )
    return top


@dataclass(frozen=True)
class Kernel:
    """What every choice gives in every later week.

    Parameters
    ----------
    points
        One array a quality, shape ``(lags, bands, 4)``: points of that quality ``lag`` weeks
        after a week of band and dose.
    background
        Shape ``(qualities, weeks)``: points that no choice changes (start level and what matches
        give, less what they cost).
    shares
        Shape ``(qualities,)``: share of each quality in the week's readiness; sums to 1.
    """

    points: tuple[Floats, ...]
    background: Floats
    shares: Floats

    def whole(self) -> tuple[tuple[Ints, ...], Ints]:
        """Return the week's readiness in ``UNITS``: tables by choice, background ``(weeks,)``."""
        tables = tuple(
            np.rint(points * share * UNITS).astype(np.int64)
            for points, share in zip(self.points, self.shares, strict=True)
        )
        rest = np.rint(self.shares @ self.background * UNITS).astype(np.int64)
        return tables, rest


def kernel(season: Season) -> Kernel:
    """Return the kernel of a season, following every effect to the last week."""
    lags = np.arange(len(season.weeks))
    points = tuple(_points(quality, season, lags) for quality in season.qualities)
    start = np.array([q.start * decay(q.tau_fitness, lags + 1) for q in season.qualities])
    weights = np.array([quality.weight for quality in season.qualities], dtype=np.float64)
    given = np.array([match_points(quality, season) for quality in season.qualities])
    given += np.array([surplus_points(index, season) for index in range(len(season.qualities))])
    return Kernel(points, start + given - outside(season), weights / weights.sum())


def _points(quality: Quality, season: Season, lags: Ints) -> Floats:
    fitness = decay(quality.tau_fitness, lags)[:, None, None] * gains(quality)
    fatigue = decay(quality.tau_fatigue, lags)[:, None, None] * strains(quality)
    raw = fitness - season.fatigue_scale * quality.fatigue_ratio * fatigue
    scaled: Floats = raw * _per_unit(quality, season)
    return scaled


def _per_unit(quality: Quality, season: Season) -> float:
    """Return the points of one unit of raw response."""
    return 100 * season.reach / rested_top(quality, season.fatigue_scale)


def match_points(quality: Quality, season: Season) -> Floats:
    """Return what earlier matches still give one quality each week, in points, shape ``(weeks,)``.

    A match of the usual length gives ``match_gain`` of a full dose on the top band; it fades by
    the day and, as its cost does, counts from the day after.
    """
    if not quality.match_gain:
        return np.zeros(len(season.weeks))
    days = np.array([judged_on(week, season) for week in season.weeks])[:, None]
    dates = np.array([fixture.date.toordinal() for fixture in season.fixtures])[None, :]
    since = days - dates
    left = np.where(since > 0, np.exp(-np.maximum(since, 0) / quality.tau_fitness), 0.0)
    played = [fixture.minutes or season.match_minutes for fixture in season.fixtures]
    whole = quality.match_gain * gains(quality)[-1, Dose.FULL] * _per_unit(quality, season)
    given: Floats = whole * (left @ (np.array(played) / season.match_minutes))
    return given


def surplus_points(index: int, season: Season) -> Floats:
    """Return what was done beyond doses gives one quality, in points, shape ``(weeks,)``."""
    quality, found = season.qualities[index], np.zeros(len(season.weeks))
    for each in season.surplus:
        if each.quality == index:
            lags = np.arange(len(season.weeks) - each.week)
            tired = season.fatigue_scale * quality.fatigue_ratio * each.strain
            found[each.week :] += each.gain * decay(quality.tau_fitness, lags)
            found[each.week :] -= tired * decay(quality.tau_fatigue, lags)
    points: Floats = found * _per_unit(quality, season)
    return points


def outside(season: Season) -> Floats:
    """Return what earlier matches and travel still cost each week, in points, shape ``(weeks,)``.

    A week is judged on the day of its most important fixture (the last such day), or on its
    Sunday; a match does not count against itself, nor do those of one event against each other.
    """
    costs = [
        sum(_match_cost(fixture, week, season) for fixture in season.fixtures)
        + sum(_outside_cost(each, judged_on(week, season), season) for each in season.outside)
        for week in season.weeks
    ]
    return np.array(costs, dtype=np.float64)


def judged_on(week: Week, season: Season) -> int:
    """Return the ordinal of the day on which the week's readiness is read.

    An event of several days is judged as it begins, or on the Monday if it began before.
    """
    if not week.fixtures:
        return week.monday.toordinal() + 6
    best = most_important(week)
    event = season.event_on(best.date)
    first = best.date if event is None else max(event.first, week.monday)
    return first.toordinal()


def most_important(week: Week) -> Fixture:
    """Return the match by which a week is judged: of the most important ones the last."""
    order = list(reversed(Priority))
    return max(week.fixtures, key=lambda fixture: (order.index(fixture.priority), fixture.date))


def _match_cost(fixture: Fixture, week: Week, season: Season) -> float:
    since = judged_on(week, season) - fixture.date.toordinal()
    event = season.event_on(most_important(week).date) if week.fixtures else None
    if since <= 0 or (event and event.first <= fixture.date):
        return 0.0
    minutes = fixture.minutes or season.match_minutes
    same_day = season.match_fatigue * minutes / season.match_minutes
    same_day += season.travel_fatigue * fixture.travel_hours
    return float(same_day * np.exp(-since / season.match_tau))


def _outside_cost(load: OutsideLoad, day: int, season: Season) -> float:
    since = day - load.date.toordinal()
    if since <= 0:
        return 0.0
    return float(season.match_fatigue * load.matches * np.exp(-since / season.match_tau))
