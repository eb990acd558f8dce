"""What people are told about a plan, worked out from the choices alone.

This is a second way to the readiness of ``optimiser.response.readiness``: week by week, carrying
fitness and fatigue forward, where the solver's tables add up every past week.
"""

import math
from collections import defaultdict
from dataclasses import dataclass

from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Quality
from optimiser.domain.season import Event, Season

PRIORITY_WEIGHT = {Priority.PEAK: 4, Priority.HIGH: 3, Priority.MEDIUM: 2, Priority.LOW: 1}


@dataclass(frozen=True)
class MatchScore:
    """How well readiness meets its target at fixtures, 0-100; None where there are none.

    Peaks count among the high ones.
    """

    score: float | None
    at_high: float | None
    at_medium: float | None
    at_low: float | None


def quality_curve(season: Season, plan: Plan, index: int) -> list[float]:
    """Return one quality's readiness by week, in points, before what matches cost is taken off."""
    quality = season.qualities[index]
    fit, tired = math.exp(-7 / quality.tau_fitness), math.exp(-7 / quality.tau_fatigue)
    scale = 100 * season.reach / _reference(quality, season.fatigue_scale)
    fitness, fatigue, start = 0.0, 0.0, quality.start
    curve = []
    played = match_fitness_by_week(season, quality)
    choices = zip(plan.rungs[index], plan.doses[index], played, strict=True)
    more = {each.week: each for each in season.surplus if each.quality == index}
    for week, (rung, dose, from_matches) in enumerate(choices):
        give, take = _stimulus(quality, rung, dose)
        if week in more:
            give, take = give + more[week].gain, take + more[week].strain
        fitness, fatigue, start = fitness * fit + give, fatigue * tired + take, start * fit
        net = fitness + from_matches - season.fatigue_scale * quality.fatigue_ratio * fatigue
        curve.append(start + scale * net)
    return curve


def match_fitness_by_week(season: Season, quality: Quality) -> list[float]:
    """Return what earlier matches still give on the day each week is judged, unitless.

    Fitness is carried from day to day: it is read in the morning, and a match of that day adds to
    it afterwards.
    """
    whole = quality.match_gain * quality.bands[-1].gain * quality.doses.full.gain
    played: dict[int, float] = defaultdict(float)
    for match in season.fixtures:
        played[match.date.toordinal()] += match.minutes or season.match_minutes
    fitness, kept, found = 0.0, math.exp(-1 / quality.tau_fitness), []
    for week in season.weeks:
        monday, judged = week.monday.toordinal(), _judged_day(season, week.index)
        for day in range(monday, monday + 7):
            fitness *= kept
            if day == judged:
                found.append(fitness)
            fitness += whole * played[day] / season.match_minutes
    return found


def _stimulus(quality: Quality, rung: int | None, dose: Dose) -> tuple[float, float]:
    spec = quality.spec(dose)
    if rung is None or spec is None:
        return 0.0, 0.0
    full = quality.doses.full
    share = (spec.minutes * spec.rpe) / (full.minutes * full.rpe)
    return quality.bands[rung].gain * spec.gain, quality.bands[rung].strain * share


def _reference(quality: Quality, fatigue_scale: float) -> float:
    """Run the top rung at full dose until it is steady, then two lighter weeks."""
    fit, tired = math.exp(-7 / quality.tau_fitness), math.exp(-7 / quality.tau_fatigue)
    fitness = fatigue = 0.0
    doses = [Dose.FULL] * 600 + [Dose.REDUCED, Dose.TOUCH]
    for dose in doses:
        give, take = _stimulus(quality, len(quality.bands) - 1, dose)
        fitness, fatigue = fitness * fit + give, fatigue * tired + take
    return fitness - fatigue_scale * quality.fatigue_ratio * fatigue


def match_cost_by_week(season: Season) -> list[float]:
    """Return what earlier matches cost on the day each week is judged, in points."""
    return [_cost_on(season, week) for week in range(len(season.weeks))]


def _judged_day(season: Season, week: int) -> int:
    here = season.weeks[week]
    day, event = _day_and_event(season, week)
    return day if event is None else max(event.first.toordinal(), here.monday.toordinal())


def _day_and_event(season: Season, week: int) -> tuple[int, Event | None]:
    """Return the day of a week's most important match, and the event it is part of."""
    here = season.weeks[week]
    for priority in Priority:
        days = [f.date for f in here.fixtures if f.priority == priority]
        if days:
            return max(days).toordinal(), season.event_on(max(days))
    return here.monday.toordinal() + 6, None


def _cost_on(season: Season, week: int) -> float:
    day, (_, event) = _judged_day(season, week), _day_and_event(season, week)
    total = 0.0
    for match in season.fixtures:
        gone = day - match.date.toordinal()
        same = event is not None and event.first <= match.date <= event.last
        if gone > 0 and not same:
            share = (match.minutes or season.match_minutes) / season.match_minutes
            fresh = season.match_fatigue * share + season.travel_fatigue * match.travel_hours
            total += fresh * math.exp(-gone / season.match_tau)
    for load in season.outside:
        gone = day - load.date.toordinal()
        if gone > 0:
            total += season.match_fatigue * load.matches * math.exp(-gone / season.match_tau)
    return total


def readiness(season: Season, plan: Plan) -> tuple[list[float], list[list[float]]]:
    """Return readiness by week, and by quality and week, in points 0-100 (100 = rested top)."""
    cost = match_cost_by_week(season)
    curves = [
        [value - lost for value, lost in zip(quality_curve(season, plan, index), cost, strict=True)]
        for index in range(len(season.qualities))
    ]
    weights = [quality.weight for quality in season.qualities]
    total = [
        sum(weight * curve[week] for weight, curve in zip(weights, curves, strict=True))
        / sum(weights)
        for week in range(len(season.weeks))
    ]
    return total, curves


def fixture_score(ready: float, target: float) -> float:
    """Return the share of the target that is reached, 0-100."""
    return 100.0 if target <= 0 else max(0.0, min(100.0, 100 * ready / target))


def match_score(season: Season, plan: Plan) -> MatchScore:
    """Return the match score of a plan: fixtures weighted 4, 3, 2, 1 by priority."""
    ready, _ = readiness(season, plan)
    rows = [
        (fixture, fixture_score(ready[week.index], week.target))
        for week in season.weeks
        for fixture in week.fixtures
    ]
    at = {p: _mean([(1, s) for f, s in rows if f.priority.eased_as is p]) for p in Priority}
    whole = _mean([(_weight(fixture), score) for fixture, score in rows])
    return MatchScore(whole, at[Priority.HIGH], at[Priority.MEDIUM], at[Priority.LOW])


def _weight(fixture: Fixture) -> int:
    return PRIORITY_WEIGHT[fixture.priority]


def _mean(pairs: list[tuple[int, float]]) -> float | None:
    total = sum(weight for weight, _ in pairs)
    return sum(weight * score for weight, score in pairs) / total if total else None


def training_load(season: Season, plan: Plan, week: int) -> int:
    """Return the load of the plan's own sessions in one week, in AU."""
    return sum(
        quality.load(plan.doses[index][week], plan.rungs[index][week])
        for index, quality in enumerate(season.qualities)
    )


def training_minutes(season: Season, plan: Plan, week: int) -> int:
    """Return the minutes of the plan's own sessions in one week."""
    return sum(
        quality.minutes(plan.doses[index][week], plan.rungs[index][week])
        for index, quality in enumerate(season.qualities)
    )


def full_minutes(season: Season) -> int:
    """Return the minutes of a week with every quality at full dose, on its longest band."""
    return sum(
        max(quality.minutes(Dose.FULL, rung) for rung in range(len(quality.bands)))
        for quality in season.qualities
    )
