"""Foundation: the upper rungs stand on weeks of the rung below."""

from typing import ClassVar

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import scaled, total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.rule import Rule


class Foundation(Rule):
    """Ask for weeks at the rung below (or above it) before an upper rung.

    Parameters
    ----------
    from_rung
        Lowest rung (counted from 1) that needs a foundation.
    weeks
        Weeks needed.
    within
        Among how many weeks just before.
    """

    name: ClassVar[str] = "foundation"
    unit: ClassVar[str] = "weeks"
    sources: ClassVar[str] = (
        "Plisk & Stone 2003, SCJ 25(6):19-37: each stage builds on the one before; numbers are "
        "common practice, no source"
    )

    from_rung: int = Field(default=3, ge=2, le=12)
    weeks: int = Field(default=3, ge=1, le=12)
    within: int = Field(default=12, ge=1, le=52)

    def post(self, board: Board) -> None:
        """Post where blocks and small steps do not already see to it."""
        for index in range(len(board.season.qualities)):
            for week in board.open_weeks():
                if not self._implied(board, week):
                    self._post_week(board, index, week)

    def _implied(self, board: Board, week: int) -> bool:
        """Tell whether every plan has the foundation in ``week`` anyway.

        Inside a block the count never falls, so the start decides: the block before is at most
        one rung lower and long enough.
        """
        arcs = board.outline.arcs
        if board.outline.step_up != 1 or self.price is not None or board.outline.soft:
            return False
        if any(len(q.bands) < self.from_rung for q in board.season.qualities):
            return False
        starts = {arc.start for arc in arcs if arc.start <= week < arc.stop}
        for start in starts:
            before = [arc.length for arc in arcs if arc.stop == start]
            reach = max((arc.stop for arc in arcs if arc.start == start), default=start) - start
            if not before or min(before) < self.weeks or self.within < self.weeks + reach:
                return False
        return True

    def _post_week(self, board: Board, index: int, week: int) -> None:
        quality = board.season.qualities[index]
        needed = self.weeks - self.free(week, quality.key)
        past = [day for day in range(max(0, week - self.within), week)]
        open_weeks = set(board.open_weeks())
        says = f"{quality.name} has {self.weeks} of the {self.within} weeks before week {week + 1}"
        tag = self.tag(f"{says} at the rung below or higher", week, quality.key)
        for rung in range(self.from_rung - 1, len(quality.bands)):
            here = board.rung(index, week, rung)
            if not here or needed <= 0:
                continue
            held = total(
                board.rung_from(index, day, rung - 1) for day in past if day in open_weeks
            )
            board.model.at_most(total([scaled(here, needed), scaled(held, -1)]), 0, tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Count, for each week on an upper rung, the weeks that carry it."""
        found = []
        for quality, row in zip(season.qualities, plan.rungs, strict=True):
            for week, rung in enumerate(row):
                if rung is None or rung + 1 < self.from_rung:
                    continue
                window = row[max(0, week - self.within) : week]
                held = len([past for past in window if past is not None and past >= rung - 1])
                short = self.weeks - held - self.free(week, quality.key)
                words = f"{quality.name} stands on rung {rung + 1} in week {week + 1} after {held}"
                if short > 0:
                    words += f" week(s) at rung {rung} or above, {self.weeks} are needed"
                    found.append(self.breach(short, words, week, quality.key))
        return found

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"Rung {self.from_rung} and above only after {self.weeks} weeks at the rung below or "
            f"higher in the last {self.within} weeks."
        )
