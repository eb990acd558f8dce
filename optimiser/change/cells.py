"""Cells of a plan: one quality in one week; which of them two plans differ in."""

from collections.abc import Iterable
from dataclasses import dataclass

from optimiser.board.board import Board
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose


@dataclass(frozen=True)
class CellChange:
    """One cell before and after; a rung (from 0) is None where nothing is done.

    Parameters
    ----------
    week, quality
        Indices from 0.
    """

    week: int
    quality: int
    rung_before: int | None
    rung_after: int | None
    dose_before: Dose
    dose_after: Dose


def cell(plan: Plan, week: int, quality: int) -> tuple[int | None, Dose]:
    """Return what athletes do: the band counts only where there is a dose."""
    dose = plan.doses[quality][week]
    return (plan.rungs[quality][week] if dose else None), dose


def changed_cells(old: Plan, new: Plan, first: int = 0) -> list[CellChange]:
    """Return the cells from week ``first`` (from 0) on that differ, by week."""
    found = []
    for week in range(first, old.weeks):
        for quality in range(len(old.rungs)):
            before, after = cell(old, week, quality), cell(new, week, quality)
            if before != after:
                found.append(CellChange(week, quality, before[0], after[0], before[1], after[1]))
    return found


def forced_changes(board: Board, old: Plan, first: int = 0) -> int:
    """Return how many cells change whatever is chosen, as their week is now closed."""
    open_weeks = set(board.open_weeks())
    return sum(
        old.doses[quality][week] is not Dose.NONE
        for week in range(first, old.weeks)
        if week not in open_weeks
        for quality in range(len(old.doses))
    )


def change_flags(board: Board, old: Plan, weeks: Iterable[int]) -> dict[tuple[int, int], int]:
    """Return a variable for each cell of open ``weeks``, 1 if it differs from ``old``.

    The rows only push it up; whoever minimises it keeps it down.
    """
    model, flags = board.model, {}
    open_weeks = set(board.open_weeks())
    for week in sorted(set(weeks) & open_weeks):
        for quality in range(len(old.doses)):
            rung, dose = cell(old, week, quality)
            flag = model.flag(f"changed[{quality},{week}]")
            flags[quality, week] = flag
            if dose > Dose.NONE:
                model.at_least({**board.at_least(quality, week, dose), flag: 1}, 1)
            if dose < Dose.FULL:
                above = board.at_least(quality, week, Dose(dose + 1))
                model.at_most({**above, flag: -1}, 0)
            if rung is not None:
                model.at_least({**board.rung(quality, week, rung), flag: 1}, 1)
    return flags


def session_moves(board: Board, old: Plan, weeks: Iterable[int]) -> list[int]:
    """Return a variable for each kind of session and open week: how far it is from ``old``."""
    model, found = board.model, []
    for week in sorted(set(weeks) & set(board.open_weeks())):
        for place, was in (("field", old.field[week]), ("gym", old.gym[week])):
            moved = model.var(0, 5, f"moved_{place}[{week}]")
            count = board.sessions("field" if place == "field" else "gym", week)
            model.at_most({**count, moved: -1}, was)
            model.at_least({**count, moved: 1}, was)
            found.append(moved)
    return found
