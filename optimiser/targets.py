"""Two targets a week: readiness for the squad, emphasis for each quality."""

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.domain.fixture import Priority
from optimiser.domain.quality import Quality
from optimiser.domain.season import Phase, Week
from optimiser.domain.target_settings import RunIn, TargetSettings


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
    for number, value in settings.by_week.items():
        firm[number - 1] = value
        # A high value set by hand is a peak to build towards, a low one is not.
        run[number - 1] = value if value >= settings.let_down_unless else 0.0
    return Curves(base=tuple(_base(weeks, settings)), run=tuple(run), firm=tuple(firm))


def readiness_targets(weeks: Sequence[Week], settings: TargetSettings) -> list[float]:
    """Return the readiness target of each week, 0-100."""
    curves = target_curves(weeks, settings)
    return [curves.at(week) for week in range(len(weeks))]


def emphasis_targets(
    weeks: Sequence[Week], qualities: Sequence[Quality], settings: TargetSettings
) -> tuple[tuple[float, ...], ...]:
    """Return where on its ladder each quality should stand.

    Returns
    -------
    tuple
        One row a quality and one column a week, 0 general to 100 specific.
    """
    curves = target_curves(weeks, settings)
    return tuple(
        tuple(_emphasis(quality, weeks, curves, index) for index in range(len(weeks)))
        for quality in qualities
    )


def _emphasis(quality: Quality, weeks: Sequence[Week], curves: Curves, index: int) -> float:
    level = curves.at(index)
    if curves.firm[index] is None:
        ahead = slice(index, index + quality.lead + 1)
        level = max(level, *curves.run[ahead])
        if weeks[index].phase is Phase.PRE:
            level = max(level, *curves.base[ahead])
    return quality.low + (quality.high - quality.low) * level / 100


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


def _run(weeks: Sequence[Week], settings: TargetSettings) -> list[float]:
    run = [0.0] * len(weeks)
    climbs: dict[Priority, RunIn] = {
        Priority.HIGH: settings.high,
        Priority.MEDIUM: settings.medium,
    }
    for week in weeks:
        climb = climbs.get(week.top_priority) if week.top_priority else None
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
        if week.top_priority is not Priority.HIGH:
            continue
        for step, value in enumerate(settings.let_down, 1):
            index = week.index + step
            if index < len(weeks) and run[index] < settings.let_down_unless:
                firm[index] = value
    return firm
