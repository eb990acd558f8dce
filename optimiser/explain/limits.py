"""What holds a plan back most: its worst weeks, and the rules that stop more work there.

No solver is asked. In each of the worst weeks and the weeks before it, one thing at a time is
raised by one step: a dose, or the band of a block. What would bring readiness up is then put to
every rule's audit, and the rules that object are counted.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from optimiser.domain.breach import Breach
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.review.audit import audit_plan
from optimiser.review.score import PRIORITY_WEIGHT, match_cost_by_week, quality_curve, readiness
from optimiser.rule import Rule

#: Weeks up to a poor one in which more work is tried.
BACK = 4
#: Points below target from which a week is worth a word.
WORTH_TELLING = 1.0
#: Points that a step must bring to count as a help.
HELP = 0.01

Excess = Counter[tuple[str, int | None, str | None, str]]


@dataclass(frozen=True)
class Stop:
    """What one rule stops.

    Parameters
    ----------
    ways
        Steps that it objects to.
    alone
        Those of them that no other rule objects to: what is stopped by several is not to be had
        by making one of them looser.
    points
        Planned readiness that those it alone stops would bring the week, together.
    """

    rule: str
    ways: int
    alone: int = 0
    points: float = 0.0


@dataclass(frozen=True)
class StepUp:
    """One thing raised by one step: a dose in one week, or the band of a whole block."""

    quality: int
    weeks: range
    kind: Literal["dose", "band"]


@dataclass(frozen=True)
class Way:
    """A step that would bring a week up.

    Parameters
    ----------
    value
        Index of the band, or the dose, that there would be.
    points
        Planned readiness that it brings the week.
    rules
        What it would break.
    elsewhere, loss
        The week with a match that falls farthest further below its target by it, and by how many
        points; None and 0 where none does.
    """

    step: StepUp
    value: int
    points: float
    rules: tuple[str, ...]
    elsewhere: int | None = None
    loss: float = 0.0


@dataclass(frozen=True)
class Limit:
    """One week below its target, and why.

    Parameters
    ----------
    week
        Index from 0.
    priority
        Of its most important fixture; None if it has none.
    target, readiness
        Points, 0-100.
    match_cost
        Points that earlier matches and travel cost here.
    closed, back
        Weeks of the last break that ended in the weeks just before, and weeks open since; 0 and
        0 if there was none.
    tried
        Single steps that would bring readiness up.
    free
        How many of them no rule objects to.
    stopped_by
        What each rule objects to: first those that alone stop most.
    most
        What would bring most: what one rule alone stops, what several stop, and what none does, as
        far as there is such.
    """

    week: int
    priority: Priority | None
    target: float
    readiness: float
    match_cost: float
    closed: int
    back: int
    tried: int
    free: int
    stopped_by: tuple[Stop, ...]
    most: tuple[Way, ...] = ()


def limits(
    season: Season, plan: Plan, rules: Sequence[Rule], *, fixtures: int = 3, others: int = 1
) -> list[Limit]:
    """Return the worst weeks with a fixture, then the worst without, worst first.

    Parameters
    ----------
    fixtures, others
        How many of each at most. Shortfalls at fixtures are weighted 3, 2, 1 by priority.
    """
    ready, _ = readiness(season, plan)
    short = {
        week.index: _weight(week.top_priority) * (week.target - ready[week.index])
        for week in season.weeks
        if not week.closed and week.target - ready[week.index] >= WORTH_TELLING
    }
    worst = sorted(short, key=lambda week: (-short[week], week))
    played = [week for week in worst if season.weeks[week].fixtures][:fixtures]
    rest = [week for week in worst if not season.weeks[week].fixtures][:others]
    trial = Trial(season, plan, rules)
    return [_limit(season, trial, week, ready) for week in played + rest]


def in_the_way(found: Sequence[Limit]) -> list[Stop]:
    """Return what rules stop in several weeks: first those that alone stop most.

    Points count 3, 2, 1 by the priority of the week's match, as shortfalls do.
    """
    stops: dict[str, Stop] = {}
    for limit in found:
        weight = _weight(limit.priority)
        for each in limit.stopped_by:
            was = stops.get(each.rule, Stop(each.rule, 0))
            stops[each.rule] = Stop(
                each.rule,
                was.ways + each.ways,
                was.alone + each.alone,
                was.points + weight * each.points,
            )
    return _most_first(stops.values())


def _most_first(stops: Iterable[Stop]) -> list[Stop]:
    return sorted(stops, key=lambda each: (-round(each.points, 6), -each.ways, each.rule))


class Trial:
    """What rules say to steps up from one plan; each step is put to them once."""

    def __init__(self, season: Season, plan: Plan, rules: Sequence[Rule]) -> None:
        self.season, self.plan, self.rules = season, plan, rules
        self._before = _excess(audit_plan(season, plan, rules))
        self._curves = [quality_curve(season, plan, q) for q in range(len(season.qualities))]
        weights = [quality.weight for quality in season.qualities]
        self._shares = [weight / sum(weights) for weight in weights]
        self._gains: dict[StepUp, list[float]] = {}
        self._broken: dict[StepUp, set[str]] = {}

    def gain(self, step: StepUp) -> list[float]:
        """Return what a step brings planned readiness, in points by week."""
        if step not in self._gains:
            better = _taken(self.season, self.plan, step)
            curve = quality_curve(self.season, better, step.quality)
            old = self._curves[step.quality]
            share = self._shares[step.quality]
            self._gains[step] = [share * (new - was) for new, was in zip(curve, old, strict=True)]
        return self._gains[step]

    def broken(self, step: StepUp) -> set[str]:
        """Return the rules that a step breaks."""
        if step not in self._broken:
            found = audit_plan(self.season, _taken(self.season, self.plan, step), self.rules)
            self._broken[step] = _new(_excess(found), self._before)
        return self._broken[step]


def _weight(priority: Priority | None) -> int:
    return 1 if priority is None else PRIORITY_WEIGHT[priority]


def _limit(season: Season, trial: Trial, week: int, ready: Sequence[float]) -> Limit:
    here = season.weeks[week]
    steps = _steps_up(season, trial.plan, week)
    ways = [_way(trial, step, week) for step in steps if trial.gain(step)[week] >= HELP]
    closed, back = _last_break(season, week)
    return Limit(
        week=week,
        priority=here.top_priority,
        target=here.target,
        readiness=ready[week],
        match_cost=match_cost_by_week(season)[week],
        closed=closed,
        back=back,
        tried=len(ways),
        free=sum(not way.rules for way in ways),
        stopped_by=tuple(_stops(ways)),
        most=tuple(_with_loss(season, trial, way, ready) for way in _most(ways)),
    )


def _way(trial: Trial, step: StepUp, week: int) -> Way:
    rows = trial.plan.rungs if step.kind == "band" else trial.plan.doses
    value = 1 + (rows[step.quality][step.weeks.start] or 0)
    return Way(step, value, trial.gain(step)[week], tuple(sorted(trial.broken(step))))


def _most(ways: Sequence[Way]) -> list[Way]:
    """Return what brings most of what one rule stops, of what several do, and of what none does."""
    kinds = ([w for w in ways if len(w.rules) == 1], [w for w in ways if len(w.rules) > 1],
             [w for w in ways if not w.rules])  # fmt: skip
    return [max(each, key=lambda way: way.points) for each in kinds if each]


def _with_loss(season: Season, trial: Trial, way: Way, ready: Sequence[float]) -> Way:
    """Add what a step takes from another week with a match."""
    gain = trial.gain(way.step)
    lost = {
        week.index: max(0.0, week.target - now - gain[week.index]) - max(0.0, week.target - now)
        for week, now in zip(season.weeks, ready, strict=True)
        if week.fixtures
    }
    if not lost:
        return way
    worst = max(lost, key=lambda week: _weight(season.weeks[week].top_priority) * lost[week])
    return replace(way, elsewhere=worst, loss=lost[worst]) if lost[worst] >= HELP else way


def _stops(ways: Sequence[Way]) -> list[Stop]:
    """Return what each rule stops."""
    times = Counter(rule for way in ways for rule in way.rules)
    alone = {rule: [way.points for way in ways if way.rules == (rule,)] for rule in times}
    return _most_first(
        Stop(rule, count, len(alone[rule]), sum(alone[rule])) for rule, count in times.items()
    )


def _last_break(season: Season, week: int) -> tuple[int, int]:
    ended = next(
        (
            past
            for past in range(week - 1, max(-1, week - 1 - BACK), -1)
            if season.weeks[past].closed
        ),
        None,
    )
    if ended is None:
        return 0, 0
    started = ended
    while started > 0 and season.weeks[started - 1].closed:
        started -= 1
    return ended - started + 1, week - 1 - ended


def _excess(breaches: Sequence[Breach]) -> Excess:
    counted: Excess = Counter()
    for breach in breaches:
        counted[breach.rule, breach.week, breach.quality, breach.part] += breach.excess
    return counted


def _new(after: Excess, before: Excess) -> set[str]:
    """Return the rules that are broken more than before."""
    return {place[0] for place, size in after.items() if size > before[place]}


def _steps_up(season: Season, plan: Plan, week: int) -> Iterator[StepUp]:
    """Yield every step that could bring a week up."""
    weeks = range(max(0, week - BACK + 1), week + 1)
    for past in weeks:
        for index in range(len(season.qualities)):
            if plan.rungs[index][past] is not None and plan.doses[index][past] < Dose.FULL:
                yield StepUp(index, range(past, past + 1), "dose")
    for block in plan.blocks():
        if block.start <= week and block.stop > weeks.start:
            for index, quality in enumerate(season.qualities):
                rung = plan.rungs[index][block.start]
                if rung is not None and rung + 1 < len(quality.bands):
                    yield StepUp(index, block, "band")


def _taken(season: Season, plan: Plan, step: StepUp) -> Plan:
    return _higher(plan, step) if step.kind == "band" else _more(season, plan, step)


def _more(season: Season, plan: Plan, step: StepUp) -> Plan:
    """Raise one dose; where there is no session to hold it, add one."""
    week = step.weeks.start
    doses = [list(row) for row in plan.doses]
    doses[step.quality][week] = Dose(doses[step.quality][week] + 1)
    change: dict[str, object] = {"doses": tuple(map(tuple, doses))}
    place = season.qualities[step.quality].place
    sessions = list(plan.field if place == "field" else plan.gym)
    if not sessions[week]:
        sessions[week] = 1
        change[place] = tuple(sessions)
    return plan.model_copy(update=change)


def _higher(plan: Plan, step: StepUp) -> Plan:
    rungs = [list(row) for row in plan.rungs]
    for week in step.weeks:
        now = rungs[step.quality][week]
        rungs[step.quality][week] = None if now is None else now + 1
    return plan.model_copy(update={"rungs": tuple(map(tuple, rungs))})
