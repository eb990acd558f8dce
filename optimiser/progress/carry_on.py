"""A plan made in mid-season, with the past as it was planned and not as it was done."""

from typing import TypeVar

from optimiser.domain.plan import Plan

T = TypeVar("T")


def with_planned_past(planned: Plan, chosen: Plan, weeks: int) -> Plan:
    """Return the choices of ``chosen`` from week ``weeks`` (from 0) on, after those of ``planned``.

    So what was planned can be set against what was done for as long as the season lasts. Where the
    bands differ at the seam, a block starts there.
    """
    if not weeks:
        return chosen
    rungs = _joined(planned.rungs, chosen.rungs, weeks)
    starts = [week for week in planned.starts if week < weeks]
    starts += [week for week in chosen.starts if week >= weeks]
    at_seam = weeks < chosen.weeks and weeks not in starts
    if at_seam and any(row[weeks] is not None and row[weeks] != row[weeks - 1] for row in rungs):
        starts.append(weeks)
    return Plan(
        starts=tuple(sorted(starts)),
        rungs=rungs,
        doses=_joined(planned.doses, chosen.doses, weeks),
        field=(*planned.field[:weeks], *chosen.field[weeks:]),
        gym=(*planned.gym[:weeks], *chosen.gym[weeks:]),
    )


def _joined(
    before: tuple[tuple[T, ...], ...], after: tuple[tuple[T, ...], ...], weeks: int
) -> tuple[tuple[T, ...], ...]:
    return tuple((*one[:weeks], *other[weeks:]) for one, other in zip(before, after, strict=True))
