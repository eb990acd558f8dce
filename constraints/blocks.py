"""Blocks: weeks that share their bands come in stretches of sensible length."""

import itertools
from typing import Annotated, Any, ClassVar, Self

from pydantic import Field, model_validator

from optimiser.board.board import Board
from optimiser.board.model import Tag
from optimiser.board.outline import Arc, Outline
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.sentence import Fact, Span
from optimiser.domain.week_number import index_of, number_of
from optimiser.domain.wording import counted, weeks_listed
from optimiser.rule import ALL, Rule, Waiver

BORDER = "a block of {block} crosses a phase border"
BEGINS, GOES_ON = "no block begins in {week}", "a block begins in {week}"
WeekNumber = Annotated[int, Field(ge=1)]


#: What is said of the weeks in which blocks are to begin, or not to.
BORDERS = {
    "begin": ("A block begins in {}", "No week is asked to begin a block"),
    "go_on": ("No block begins in {}", "Blocks may begin in any week"),
}


class Blocks(Rule):
    """Keep block lengths in a range and inside one phase.

    Parameters
    ----------
    shortest, longest
        Weeks a block may last. A stretch of a phase that cannot be cut into such blocks (cut short
        by closed weeks, or five weeks for blocks of 3 or 4) may have shorter ones: as many as
        ``longest`` asks for, and as even as they go.
    yields
        False to ask ``shortest`` of every block.
    begin, go_on
        Weeks, counted from 1, in which a block must begin, and in which none may.
    """

    name: ClassVar[str] = "blocks"
    asks: ClassVar[str] = "limits of block lengths"
    title: ClassVar[str] = "Length of blocks"
    told: ClassVar[dict[str, str]] = {
        "length": "a shorter block: what there is of the phase cannot be cut into usual ones"
    }
    unit: ClassVar[str] = "weeks"
    labels: ClassVar[dict[str, str]] = {
        "shortest": "Fewest weeks of a block",
        "longest": "Most weeks of a block",
        "yields": "Shorter ones where phases and breaks leave no choice",
        "begin": "A block begins in weeks",
        "go_on": "No block begins in weeks",
    }
    told_whole: ClassVar[bool] = True
    looser_up: ClassVar[frozenset[str]] = frozenset({"longest"})
    looser_down: ClassVar[frozenset[str]] = frozenset({"shortest"})
    eases: ClassVar[dict[str, str]] = {
        "length": "let a block that starts in {week} {made}",
        "border": "let a block that starts in {week} run across a phase border",
        "begin": "let a block go on in {week}",
        "go_on": "let a block begin in {week}",
    }
    sources: ClassVar[str] = "Issurin 2010, Sports Med 40(3):189-206: 2-6 weeks, often 4"

    shortest: int = Field(default=3, ge=1, le=8)
    longest: int = Field(default=6, ge=1, le=8)
    yields: bool = True
    begin: tuple[WeekNumber, ...] = ()
    go_on: tuple[WeekNumber, ...] = ()

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.shortest > self.longest:
            raise ValueError(
                f"shortest must not pass longest (got {self.shortest} and {self.longest})"
            )
        return self

    def check(self, season: Season) -> None:
        """Refuse weeks that the season does not have, and those asked for both."""
        for week in (*self.begin, *self.go_on):
            if week > len(season.weeks):
                raise ValueError(f"week must be 1 to {len(season.weeks)} (got {week})")
        if both := sorted({*self.begin} & {*self.go_on}):
            raise ValueError(f"a block must begin and not begin in week {both[0]}; drop one")

    def shape(self, outline: Outline) -> None:
        """Forbid blocks that are too long, too short, cross a phase border or a week asked for."""
        least = {
            week: self._least(stretch.length)
            for stretch in _phase_stretches(outline)
            for week in stretch.weeks
        }
        for arc in sorted(outline.arcs):
            self._forbid_length(outline, arc, least[arc.start])
            self._forbid_border(outline, arc)
            self._forbid_asked(outline, arc)

    def _forbid_asked(self, outline: Outline, arc: Arc) -> None:
        for number in sorted({*self.begin}):
            over = 1 - self.free(index_of(number), part="begin")
            if index_of(number) in arc.weeks[1:] and over > 0:
                tag = self.tag(BEGINS, index_of(number), part="begin", unit="borders")
                outline.forbid_block(arc, tag, over)
        over = 1 - self.free(arc.start, part="go_on")
        if number_of(arc.start) in self.go_on and over > 0:
            tag = self.tag(GOES_ON, arc.start, part="go_on", unit="borders")
            outline.forbid_block(arc, tag, over)

    def _least(self, stretch: int) -> int:
        """Return the shortest block of a stretch of so many weeks."""
        if not self.yields:
            return self.shortest
        blocks = -(-stretch // self.longest)
        return min(self.shortest, stretch // blocks)

    def _forbid_length(self, outline: Outline, arc: Arc, least: int) -> None:
        spare = self.free(arc.start, part="length")
        if arc.length > self.longest + spare:
            tag = self._length_tag(
                "a block of {block} is longer than {limit:week}", arc, self.longest
            )
            outline.forbid_block(arc, tag, arc.length - self.longest - spare)
        if arc.length < least - spare:
            tag = self._length_tag("a block of {block} is shorter than {limit:week}", arc, least)
            outline.forbid_block(arc, tag, least - spare - arc.length)

    def _length_tag(self, form: str, arc: Arc, limit: int) -> Tag:
        block = Span(arc.start, arc.stop - 1)
        return self.tag(form, arc.start, part="length", limit=limit, block=block)

    def _forbid_border(self, outline: Outline, arc: Arc) -> None:
        weeks = outline.season.weeks
        borders = sum(weeks[w].phase != weeks[w - 1].phase for w in arc.weeks[1:])
        over = borders - self.free(arc.start, part="border")
        if over > 0:
            block = Span(arc.start, arc.stop - 1)
            tag = self.tag(BORDER, arc.start, part="border", unit="borders", block=block)
            outline.forbid_block(arc, tag, over)

    def post(self, board: Board) -> None:
        """Nothing is left to post: blocks were shaped."""

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Look at each block of the plan."""
        return [
            breach
            for block in plan.blocks()
            for breach in (*self._length(block, season), *self._border(block, season))
        ] + self._asked({block.start: len(block) for block in plan.blocks()})

    def _asked(self, blocks: dict[int, int]) -> list[Breach]:
        """Look at each week that was asked for; ``blocks`` are lengths by first week."""
        inside = {start + step for start, length in blocks.items() for step in range(1, length)}
        wrong = [
            (index_of(week), "begin", BEGINS) for week in {*self.begin} if index_of(week) in inside
        ]
        wrong += [
            (index_of(week), "go_on", GOES_ON) for week in {*self.go_on} if index_of(week) in blocks
        ]
        return [
            breach
            for week, part, form in sorted(wrong)
            for breach in self.breaches(1, form, week, part=part, unit="borders")
        ]

    def _length(self, block: range, season: Season) -> list[Breach]:
        least = self.shortest
        if self.yields:
            least = _evenly(least, self.longest, _weeks_of_phase(block.start, season))
        made, weeks = len(block), Span(block.start, block.stop - 1)
        over = max(made - self.longest, least - made)
        form = "the block of {block} lasts {weeks:week}"
        return self.breaches(over, form, block.start, part="length", block=weeks, weeks=made)

    def _border(self, block: range, season: Season) -> list[Breach]:
        phases = [season.weeks[week].phase for week in block]
        changes = sum(1 for now, then in itertools.pairwise(phases) if now is not then)
        form, weeks = "the block of {block} crosses a phase border", Span(block[0], block[-1])
        return self.breaches(changes, form, block[0], part="border", unit="borders", block=weeks)

    def tried(self, season: Season, plan: Plan, place: Tag, by: int) -> dict[str, Fact]:
        """Return how long the block is that starts in the place."""
        lengths = [len(block) for block in plan.blocks() if block.start == place.week]
        if not lengths:
            return {"made": f"be {counted(by, 'week')} longer or shorter"}
        return {"made": f"last {counted(lengths[0], 'week')}"}

    def on_joining(self, first: int, absent: int) -> Self:
        """Let a group join in the middle of a block."""
        return self.waived(Waiver(week=first, part="length", by=ALL))

    def loosened(self) -> Self | None:
        """Return the rule with blocks a week longer."""
        if self.longest >= 8:
            return None
        return self.model_copy(update={"longest": self.longest + 1})

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return f"blocks of up to {after.longest} weeks instead of {self.longest}"

    @classmethod
    def setting_words(cls, parameter: str, value: Any) -> str:
        """Say in which weeks blocks are to begin, or not to."""
        if parameter not in BORDERS:
            return ""
        form, none = BORDERS[parameter]
        return form.format(weeks_listed(map(int, value))) if value else none

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"Blocks last {self._lengths()} weeks, keep their bands, and never cross a phase "
            f"border.{self._asked_words()}"
        )

    def _lengths(self) -> str:
        one = self.shortest == self.longest
        return str(self.longest) if one else f"{self.shortest} to {self.longest}"

    def _asked_words(self) -> str:
        begin = f" A block begins in {weeks_listed(self.begin)}." if self.begin else ""
        return begin + (f" None begins in {weeks_listed(self.go_on)}." if self.go_on else "")


def _phase_stretches(outline: Outline) -> list[Arc]:
    """Cut the open stretches wherever the phase changes."""
    weeks = outline.season.weeks
    found = []
    for stretch in outline.stretches():
        cuts = [w for w in stretch if w == stretch.start or weeks[w].phase != weeks[w - 1].phase]
        ends = [*cuts[1:], stretch.stop]
        found += [Arc(start, stop - start) for start, stop in zip(cuts, ends, strict=True)]
    return found


def _weeks_of_phase(week: int, season: Season) -> int:
    """Count the open weeks in a row around ``week`` that are of its phase."""
    count = 1
    for step in (-1, 1):
        at = week + step
        while 0 <= at < len(season.weeks):
            if season.weeks[at].closed or season.weeks[at].phase is not season.weeks[week].phase:
                break
            count, at = count + 1, at + step
    return count


def _evenly(shortest: int, longest: int, weeks: int) -> int:
    """Return the shortest block, if need be that of the fewest blocks that fill ``weeks``."""
    for least in range(shortest, 0, -1):
        if any(least * blocks <= weeks <= longest * blocks for blocks in range(1, weeks + 1)):
            return least
    return 1
