"""Revisit: in mid-season every quality comes back to a general rung once."""

from collections.abc import Sequence
from itertools import groupby, takewhile
from typing import ClassVar, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import Tag
from optimiser.board.outline import Memory, Outline
from optimiser.domain.breach import Breach
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Quality
from optimiser.domain.season import Phase, Season, Week
from optimiser.domain.sentence import Span
from optimiser.rule import Rule


class Revisit(Rule):
    """Ask for one whole low block of every quality in mid-season.

    The window opens ``settle`` weeks after the first fixture and closes ``clear`` weeks before the
    last high one; where in it the block falls is the plan's to say. Where phases and closed weeks
    leave no place in it for a block of ``weeks`` beside others as long, nothing is asked.

    Parameters
    ----------
    rung
        Highest rung (counted from 1) of that block.
    weeks
        Least length of the block.
    long_season
        Weeks from which a season is long; shorter ones are left alone.
    clear
        Weeks before the last high fixture that do not count.
    settle
        Weeks after the first fixture that do not count.
    yields
        False to ask for it even where phases and closed weeks leave no place.
    """

    name: ClassVar[str] = "revisit"
    asks: ClassVar[str] = "returns to general bands"
    title: ClassVar[str] = "Return to general work"
    told: ClassVar[dict[str, str]] = {
        "": "{quality} without a low block between the peaks: phases and breaks leave no place"
    }
    unit: ClassVar[str] = "low blocks"
    labels: ClassVar[dict[str, str]] = {
        "rung": "Highest rung of the return",
        "weeks": "Fewest weeks of it",
        "long_season": "In seasons of so many weeks or more",
        "clear": "Not in so many weeks before the last high match",
        "settle": "Not in so many weeks after the first match",
        "yields": "Asks nothing where phases and breaks leave no place",
    }
    eases: ClassVar[dict[str, str]] = {
        "": "let {quality} do without its low block between the peaks"
    }

    rung: int = Field(default=2, ge=1, le=12)
    weeks: int = Field(default=3, ge=1, le=8)
    long_season: int = Field(default=40, ge=1, le=260)
    clear: int = Field(default=8, ge=0, le=52)
    settle: int = Field(default=4, ge=0, le=52)
    yields: bool = True

    def _window(self, season: Season) -> range | None:
        peaks = season.weeks_with(Priority.HIGH)
        if len(season.weeks) < self.long_season or not peaks:
            return None
        played = [week.index for week in season.weeks if week.fixtures]
        window = range(played[0] + self.settle, peaks[-1] - self.clear + 1)
        if not self.yields:
            return window if len(window) >= self.weeks else None
        return window if self._fits(season, window) else None

    def _fits(self, season: Season, window: range) -> bool:
        """Tell whether a block fits in the window, and the rest of its phase is none or as long."""
        rest = range(1, self.weeks)
        for stretch in _stretches(season):
            first, last = max(stretch.start, window.start), min(stretch.stop, window.stop)
            starts = [at for at in range(first, last) if at - stretch.start not in rest]
            stops = [at for at in range(first, last + 1) if stretch.stop - at not in rest]
            if any(stop - start >= self.weeks for start in starts for stop in stops):
                return True
        return False

    def _tag(self, quality: Quality, window: range) -> Tag:
        return self.tag(
            "{quality:has} a block of {weeks} weeks or more at rung {rung} or lower in {window}",
            None,
            quality,
            weeks=self.weeks,
            rung=self.rung,
            window=Span(window.start, window.stop - 1),
        )

    def shape(self, outline: Outline) -> None:
        """Make the low block part of each quality's path."""
        window = self._window(outline.season)
        if window is None:
            return
        memory = Memory(window, self.rung - 1, self.weeks)
        for index, quality in enumerate(outline.season.qualities):
            if not self.free(None, quality.key):
                outline.remember(index, memory, self._tag(quality, window))

    def post(self, board: Board) -> None:
        """Post a row for each quality whose path does not remember."""
        window = self._window(board.season)
        if window is None:
            return
        memory = Memory(window, self.rung - 1, self.weeks)
        for index, quality in enumerate(board.season.qualities):
            if self.free(None, quality.key) or board.outline.memory.get(index) == memory:
                continue
            low = {
                var: 1
                for (at, arc, rung, _, _), var in board.steps.items()
                if at == index and memory.qualifies(arc, rung)
            }
            board.model.at_least(low, 1, self._tag(quality, window))

    def on_joining(self, first: int, absent: int) -> None:
        """Do not ask of a part of a season what the whole of one has room for."""

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Look for a low block of each quality between the peaks."""
        highs = [
            week.index
            for week in season.weeks
            if any(fixture.priority in ("peak", "high") for fixture in week.fixtures)
        ]
        if not highs or len(season.weeks) < self.long_season:
            return []
        first = min(week.index for week in season.weeks if week.fixtures) + self.settle
        last = max(highs) - self.clear
        if last - first + 1 < self.weeks:
            return []
        if self.yields and not _has_place(season, first, last, self.weeks):
            return []
        form = "{quality:does} not come back to rung {rung} in {window}"
        window = Span(first, last)
        found: list[Breach] = []
        for quality, row in zip(season.qualities, plan.rungs, strict=True):
            low = [
                block
                for block in plan.blocks()
                if block.start >= first
                and block.stop - 1 <= last
                and len(block) >= self.weeks
                and (row[block.start] or 0) < self.rung
            ]
            if not low:
                found += self.breaches(1, form, None, quality, rung=self.rung, window=window)
        return found

    def loosened(self) -> Self | None:
        """Return the rule with a low block one rung higher."""
        return self.model_copy(update={"rung": self.rung + 1}) if self.rung < 12 else None

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return f"a return to rung {after.rung} instead of {self.rung} in mid-season"

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"In a season of {self.long_season} weeks or more every quality spends one block of at "
            f"least {self.weeks} weeks at rung {self.rung} or lower, from {self.settle} weeks "
            f"after the first fixture to {self.clear} weeks before the last high one."
        )


def _stretches(season: Season) -> list[range]:
    """Return the runs of open weeks of one phase."""
    weeks = season.weeks
    found: list[range] = []
    for key, run in groupby(weeks, key=lambda week: (week.closed, week.phase)):
        here = list(run)
        if not key[0]:
            found.append(range(here[0].index, here[-1].index + 1))
    return found


def _has_place(season: Season, first: int, last: int, least: int) -> bool:
    """Tell whether some ``least`` weeks or more of ``first`` to ``last`` can be a block.

    What is left of their phase before and after them has to be nothing, or as long.
    """
    for start in range(max(0, first), last + 1):
        for stop in range(start + least, last + 2):
            kinds = {(week.closed, week.phase) for week in season.weeks[start:stop]}
            closed, phase = next(iter(kinds))
            if len(kinds) > 1 or closed:
                continue
            spare = (_run(season.weeks[:start][::-1], phase), _run(season.weeks[stop:], phase))
            if all(more == 0 or more >= least for more in spare):
                return True
    return False


def _run(weeks: Sequence[Week], phase: Phase) -> int:
    """Count the weeks from the first on that are open and of ``phase``."""
    return sum(1 for _ in takewhile(lambda week: not week.closed and week.phase is phase, weeks))
