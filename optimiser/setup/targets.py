"""Readiness targets: a level for each phase, climbs towards matches that matter, a let-down."""

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.domain.fixture import Priority
from optimiser.domain.season import Phase, Week
from optimiser.domain.target_settings import RunIn, TargetSettings
from optimiser.domain.week_number import index_of, number_of


@dataclass(frozen=True)
class Curves:
    """The parts of a target, one entry a week, 0-100.

    Parameters
    ----------
    base
        Level of the phase.
    run
        Climb towards a fixture, 0 where there is none.
    firm
        A let-down or a value set by hand, which nothing may lift; None elsewhere.
    """

    base: tuple[float, ...]
    run: tuple[float, ...]
    firm: tuple[float | None, ...]

    def at(self, week: int) -> float:
        """Return the readiness target of ``week``."""
        firm = self.firm[week]
        return max(self.base[week], self.run[week]) if firm is None else firm


def target_curves(weeks: Sequence[Week], settings: TargetSettings) -> Curves:
    """Return the parts of the targets of ``weeks``."""
    run = _run(weeks, settings)
    firm = _let_down(weeks, run, settings)
    for week in weeks:
        if (own := _own_target(week)) is not None:
            firm[week.index] = own
    for number, value in settings.by_week.items():
        firm[index_of(number)] = value
        # A high value set by hand is a peak to build towards, a low one is not.
        run[index_of(number)] = value if value >= settings.let_down_unless else 0.0
    return Curves(base=tuple(_base(weeks, settings)), run=tuple(run), firm=tuple(firm))


def readiness_targets(weeks: Sequence[Week], settings: TargetSettings) -> list[float]:
    """Return the readiness target of each week, 0-100."""
    curves = target_curves(weeks, settings)
    found = [curves.at(week) for week in range(len(weeks))]
    for week in reversed(range(len(weeks) - 1)):
        by_hand = number_of(week) in settings.by_week
        if not by_hand and not weeks[week].closed and not weeks[week + 1].closed:
            found[week] = max(found[week], found[week + 1] - settings.rise)
    return found


def _base(weeks: Sequence[Week], settings: TargetSettings) -> list[float]:
    return [_base_at(weeks, index, settings) for index in range(len(weeks))]


def _base_at(weeks: Sequence[Week], index: int, settings: TargetSettings) -> float:
    week = weeks[index]
    if week.phase is Phase.OFF:
        return settings.off_season
    if week.phase is Phase.IN:
        return settings.with_fixture if week.fixtures else settings.without_fixture
    start = stop = index
    while start > 0 and weeks[start - 1].phase is Phase.PRE:
        start -= 1
    while stop + 1 < len(weeks) and weeks[stop + 1].phase is Phase.PRE:
        stop += 1
    share = (index - start) / (stop - start) if stop > start else 1.0
    return settings.pre_season_from + share * (settings.pre_season_to - settings.pre_season_from)


def _own_target(week: Week) -> float | None:
    return max((f.target for f in week.fixtures if f.target is not None), default=None)


def _own(week: Week, climb: RunIn | None) -> RunIn | None:
    """Return the climb to a week's own target, where a fixture has one."""
    own = _own_target(week)
    if own is None:
        return climb
    return RunIn(peak=own, step=climb.step if climb else 0, weeks=climb.weeks if climb else 0)


def _run(weeks: Sequence[Week], settings: TargetSettings) -> list[float]:
    run = [0.0] * len(weeks)
    climbs: dict[Priority, RunIn] = {
        Priority.PEAK: settings.high,
        Priority.HIGH: settings.high,
        Priority.MEDIUM: settings.medium,
    }
    for week in weeks:
        climb = _own(week, climbs.get(week.top_priority) if week.top_priority else None)
        for back in range(climb.weeks + 1 if climb else 0):
            index = week.index - back
            if climb and index >= 0:
                run[index] = max(run[index], climb.at(back))
    return run


def _let_down(
    weeks: Sequence[Week], run: Sequence[float], settings: TargetSettings
) -> list[float | None]:
    firm: list[float | None] = [None] * len(weeks)
    for week in weeks:
        if week.top_priority is None or not week.top_priority.great:
            continue
        for step, value in enumerate(settings.let_down, 1):
            index = week.index + step
            if index < len(weeks) and run[index] < settings.let_down_unless:
                firm[index] = value
    return firm
