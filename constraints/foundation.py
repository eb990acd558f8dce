"""Foundation: the upper rungs stand on weeks of the rung below."""

from typing import ClassVar, Self

from pydantic import Field, model_validator

from optimiser.board.board import Board
from optimiser.board.model import Tag, scaled, total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.wording import counted
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
        Among how many open weeks just before; equal to ``weeks``, they must come in a row.
    """

    name: ClassVar[str] = "foundation"
    asks: ClassVar[str] = "weeks of groundwork before high bands"
    title: ClassVar[str] = "Foundation before specific work"
    unit: ClassVar[str] = "weeks"
    labels: ClassVar[dict[str, str]] = {
        "from_rung": "From which rung on",
        "weeks": "Weeks of groundwork",
        "within": "Among so many open weeks before",
    }
    looser_up: ClassVar[frozenset[str]] = frozenset({"from_rung", "within"})
    looser_down: ClassVar[frozenset[str]] = frozenset({"weeks"})
    eases: ClassVar[dict[str, str]] = {
        "": (
            "let {quality} stand on an upper rung in {week} after {lower} instead of {limit:week} "
            "of foundation"
        )
    }
    sources: ClassVar[str] = (
        "Plisk & Stone 2003, SCJ 25(6):19-37: each stage builds on the one before; numbers are "
        "common practice, no source"
    )

    from_rung: int = Field(default=3, ge=2, le=12)
    weeks: int = Field(default=3, ge=1, le=12)
    within: int = Field(default=3, ge=1, le=52)

    @model_validator(mode="after")
    def _check_room(self) -> Self:
        if self.within < self.weeks:
            raise ValueError(f"within must be at least weeks (got {self.within} and {self.weeks})")
        return self

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
        starts = {arc.start for arc in arcs if arc.start <= week < arc.stop}
        before = [[arc.length for arc in arcs if arc.stop == start] for start in starts]
        return all(lengths and min(lengths) >= self.weeks for lengths in before)

    def _post_week(self, board: Board, index: int, week: int) -> None:
        quality = board.season.qualities[index]
        needed = self.weeks - self.free(week, quality.key)
        past = [day for day in board.open_weeks() if day < week][-self.within :]
        tag = self.tag(
            "{quality:has} {limit} of the {within} weeks before {week} at the rung below or higher",
            week,
            quality,
            limit=self.weeks,
            within=self.within,
        )
        for rung in range(self.from_rung - 1, len(quality.bands)):
            if needed > 0 and board.rung(index, week, rung):
                self._post_rung(board, index, week, rung, past, needed, tag)

    def _post_rung(
        self, board: Board, index: int, week: int, rung: int, past: list[int], needed: int, tag: Tag
    ) -> None:
        if needed >= len(past) and not board.outline.keeps(tag):
            # every one of these weeks must carry the rung: one row a week is much tighter
            here = board.rung_from(index, week, rung)
            if needed > len(past):
                board.model.at_most(here, 0, tag)
            for day in past:
                held = board.rung_from(index, day, rung - 1)
                board.model.at_most(total([here, scaled(held, -1)]), 0, tag)
            return
        here = board.rung(index, week, rung)
        held = total(board.rung_from(index, day, rung - 1) for day in past)
        board.model.at_most(total([scaled(here, needed), scaled(held, -1)]), 0, tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Count, for each week on an upper rung, the weeks that carry it."""
        found: list[Breach] = []
        for quality, row in zip(season.qualities, plan.rungs, strict=True):
            so_far: list[int] = []
            for week, rung in enumerate(row):
                if rung is None:
                    continue
                held = sum(1 for past in so_far[-self.within :] if past >= rung - 1)
                so_far.append(rung)
                if rung + 1 < self.from_rung:
                    continue
                found += self.breaches(
                    self.weeks - held,
                    "{quality:stands} on rung {rung} in {week} after {held:week} at rung {below} "
                    "or above, {needed} are needed",
                    week,
                    quality,
                    rung=rung + 1,
                    held=held,
                    below=rung,
                    needed=self.weeks,
                )
        return found

    def loosened(self) -> Self | None:
        """Return the rule with one week of foundation less."""
        return self.model_copy(update={"weeks": self.weeks - 1}) if self.weeks > 1 else None

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return (
            f"{counted(after.weeks, 'week')} of groundwork instead of {self.weeks} before rung "
            f"{self.from_rung} and above"
        )

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"Rung {self.from_rung} and above only after {self.weeks} weeks at the rung below or "
            f"higher in the last {self.within} open weeks."
        )
