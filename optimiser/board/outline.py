"""The outline: what is still open to choose, before any variable exists.

Rules narrow it first, so that what they forbid outright is never built.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

from optimiser.board.model import Tag
from optimiser.domain.season import Season

#: Longest block that exists when no rule says otherwise, in weeks.
LONGEST_BLOCK = 8


@dataclass(frozen=True, slots=True, order=True)
class Arc:
    """A block that could be: it starts in week ``start`` and lasts ``length`` weeks."""

    start: int
    length: int

    @property
    def stop(self) -> int:
        """Return the first week after it."""
        return self.start + self.length

    @property
    def weeks(self) -> range:
        """Return its weeks."""
        return range(self.start, self.stop)


@dataclass(frozen=True, slots=True)
class Memory:
    """One whole block of at least ``weeks`` weeks at or below ``rung`` inside ``window``."""

    window: range
    rung: int
    weeks: int

    def qualifies(self, arc: Arc, rung: int) -> bool:
        """Tell whether a block at ``rung`` is the one asked for."""
        inside = self.window.start <= arc.start and arc.stop <= self.window.stop
        return inside and arc.length >= self.weeks and rung <= self.rung


@dataclass
class Outline:
    """Open blocks and rungs of a season.

    Parameters
    ----------
    soft
        True if nothing may be left out, because every rule is to be argued about; what rules
        forbid is then kept as tagged choices.
    step_up
        Most rungs up between blocks that every plan keeps, if a rule says so.
    """

    season: Season
    soft: bool = False
    arcs: dict[Arc, list[tuple[Tag, int]]] = field(init=False)
    rungs: dict[tuple[int, int, int], list[tuple[Tag, int]]] = field(default_factory=dict)
    memory: dict[int, Memory] = field(default_factory=dict)
    step_up: int | None = None

    def __post_init__(self) -> None:
        """Open every block inside every stretch of open weeks."""
        self.arcs = {
            Arc(start, stop - start): []
            for stretch in self.stretches()
            for start in stretch
            for stop in range(start + 1, min(start + LONGEST_BLOCK, stretch.stop) + 1)
        }

    def stretches(self) -> list[range]:
        """Return the runs of open weeks."""
        return list(open_stretches(self.season))

    def keeps(self, tag: Tag) -> bool:
        """Tell whether what ``tag`` forbids stays in the model, to be paid for or argued about."""
        return self.soft or tag.price is not None

    def forbid_block(self, arc: Arc, tag: Tag, size: int = 1) -> None:
        """Forbid a block; ``size`` is the excess if it is taken all the same."""
        if arc not in self.arcs:
            return
        if self.keeps(tag):
            self.arcs[arc].append((tag, size))
        else:
            del self.arcs[arc]

    def forbid_rung(self, quality: int, week: int, rung: int, tag: Tag, size: int = 1) -> None:
        """Forbid a rung in a week; ``size`` is the excess if it is taken all the same."""
        self.rungs.setdefault((quality, week, rung), []).append((tag, size))

    def remember(self, quality: int, memory: Memory, tag: Tag) -> bool:
        """Make a block of ``memory`` part of the path; False if it has to be a row instead."""
        if self.keeps(tag) or quality in self.memory or not self.arcs:
            return False
        self.memory[quality] = memory
        return True

    def rung_open(self, quality: int, week: int, rung: int) -> bool:
        """Tell whether a rung may be built in a week."""
        tags = self.rungs.get((quality, week, rung))
        return not tags or all(self.keeps(tag) for tag, _ in tags)


def open_stretches(season: Season) -> Iterator[range]:
    """Yield the runs of weeks that are not closed."""
    start = None
    for week in season.weeks:
        if week.closed and start is not None:
            yield range(start, week.index)
            start = None
        elif not week.closed and start is None:
            start = week.index
    if start is not None:
        yield range(start, len(season.weeks))
