"""Blocks: weeks that share their bands come in stretches of sensible length."""

import itertools
from typing import ClassVar, Self

from pydantic import Field, model_validator

from optimiser.board.board import Board
from optimiser.board.outline import Arc, Outline
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.rule import Rule


class Blocks(Rule):
    """Keep block lengths in a range and inside one phase.

    Parameters
    ----------
    shortest, longest
        Weeks a block may last. A stretch of a phase that is shorter than ``shortest`` (cut off
        by closed weeks, say) may be one block.
    """

    name: ClassVar[str] = "blocks"
    unit: ClassVar[str] = "weeks"
    sources: ClassVar[str] = "Issurin 2010, Sports Med 40(3):189-206: 2-6 weeks, often 4"

    shortest: int = Field(default=3, ge=1, le=8)
    longest: int = Field(default=6, ge=1, le=8)

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.shortest > self.longest:
            raise ValueError(
                f"shortest must not pass longest (got {self.shortest} and {self.longest})"
            )
        return self

    def shape(self, outline: Outline) -> None:
        """Forbid every block that is too long, too short or crosses a phase border."""
        whole = set(_phase_stretches(outline))
        for arc in sorted(outline.arcs):
            self._forbid_length(outline, arc, whole)
            self._forbid_border(outline, arc)

    def _forbid_length(self, outline: Outline, arc: Arc, whole: set[Arc]) -> None:
        where = f"a block of weeks {arc.start + 1}-{arc.stop}"
        spare = self.free(arc.start, part="length")
        if arc.length > self.longest + spare:
            says = f"{where} is longer than {self.longest} weeks"
            tag = self.tag(says, arc.start, part="length")
            outline.forbid_block(arc, tag, arc.length - self.longest - spare)
        if arc.length < self.shortest - spare and arc not in whole:
            says = f"{where} is shorter than {self.shortest} weeks"
            tag = self.tag(says, arc.start, part="length")
            outline.forbid_block(arc, tag, self.shortest - spare - arc.length)

    def _forbid_border(self, outline: Outline, arc: Arc) -> None:
        weeks = outline.season.weeks
        borders = sum(weeks[w].phase != weeks[w - 1].phase for w in arc.weeks[1:])
        over = borders - self.free(arc.start, part="border")
        if over > 0:
            says = f"a block of weeks {arc.start + 1}-{arc.stop} crosses a phase border"
            tag = self.tag(says, arc.start, part="border", unit="borders")
            outline.forbid_block(arc, tag, over)

    def post(self, board: Board) -> None:
        """Nothing is left to post: blocks were shaped."""

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Look at each block of the plan."""
        return [
            breach
            for block in plan.blocks()
            for breach in (*self._length(block, season), *self._border(block, season))
        ]

    def _length(self, block: range, season: Season) -> list[Breach]:
        spare = self.free(block.start, part="length")
        long, short = len(block) - self.longest, self.shortest - len(block)
        if short > 0 and _fills_its_phase(block, season):
            short = 0
        over = max(long, short) - spare
        words = f"the block of weeks {block.start + 1}-{block.stop} lasts {len(block)} "
        words += "week" if len(block) == 1 else "weeks"
        return [self.breach(over, words, block.start, part="length")] if over > 0 else []

    def _border(self, block: range, season: Season) -> list[Breach]:
        phases = [season.weeks[week].phase for week in block]
        changes = sum(1 for now, then in itertools.pairwise(phases) if now is not then)
        over = changes - self.free(block.start, part="border")
        words = f"the block of weeks {block.start + 1}-{block.stop} crosses a phase border"
        if over <= 0:
            return []
        return [self.breach(over, words, block.start, part="border", unit="borders")]

    def loosened(self) -> Self | None:
        """Return the rule with blocks a week longer."""
        if self.longest >= 8:
            return None
        return self.model_copy(update={"longest": self.longest + 1})

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"Blocks last {self.shortest} to {self.longest} weeks, keep their bands, and never "
            "cross a phase border."
        )


def _phase_stretches(outline: Outline) -> list[Arc]:
    """Cut the open stretches wherever the phase changes."""
    weeks = outline.season.weeks
    found = []
    for stretch in outline.stretches():
        cuts = [w for w in stretch if w == stretch.start or weeks[w].phase != weeks[w - 1].phase]
        ends = [*cuts[1:], stretch.stop]
        found += [Arc(start, stop - start) for start, stop in zip(cuts, ends, strict=True)]
    return found


def _fills_its_phase(block: range, season: Season) -> bool:
    """Tell whether the weeks just before and after are closed or of another phase."""
    inside = {season.weeks[week].phase for week in block}
    if len(inside) > 1:
        return False
    around = [week for week in (block.start - 1, block.stop) if 0 <= week < len(season.weeks)]
    return not any(
        not season.weeks[week].closed and season.weeks[week].phase in inside for week in around
    )
