"""Progression: climb by small steps, and let two weeks' volume grow only so much."""

import itertools
from typing import ClassVar, Self

from pydantic import Field

from constraints.left import left_of
from optimiser.board.board import Board
from optimiser.board.model import Tag, scaled, total
from optimiser.board.outline import Outline
from optimiser.days.room import rooms_left
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Quality
from optimiser.domain.season import Season
from optimiser.domain.sentence import Span
from optimiser.domain.wording import counted
from optimiser.review.score import training_minutes
from optimiser.rule import Rule


class Progression(Rule):
    """Limit steps on the ladder and the rise in volume.

    Parameters
    ----------
    up, down
        Most rungs up and down between neighbouring blocks. A climb across closed weeks is
        limited too; a fall across them is not.
    volume_rise
        Most per cent by which two weeks may exceed the two weeks before.
    allowance
        And so many minutes more.
    missed
        Minutes that a week before is given more, if matches or breaks left it room for primers at
        most.
    yields
        False to ask it of every week, whatever matches and breaks leave.
    """

    name: ClassVar[str] = "progression"
    asks: ClassVar[str] = "bands that climb one at a time"
    title: ClassVar[str] = "Steps up the ladder"
    told: ClassVar[dict[str, str]] = {
        "volume": "volume comes back faster, after a week with room for primers at most"
    }
    unit: ClassVar[str] = "rungs"
    labels: ClassVar[dict[str, str]] = {
        "up": "Most rungs up from block to block",
        "down": "Most rungs down from block to block",
        "volume_rise": "Most rise of two weeks over the two before, per cent",
        "allowance": "And so many minutes more",
        "missed": "Minutes a week counts at least where matches or breaks left no room",
        "yields": "Asks less where matches and breaks leave no room",
    }
    looser_up: ClassVar[frozenset[str]] = frozenset({"up", "down", "volume_rise", "allowance"})
    eases: ClassVar[dict[str, str]] = {
        "up": "let {quality} go up {higher} instead of {limit:rung} into {week}",
        "down": "let {quality} go down {higher} instead of {limit:rung} into {week}",
        "volume": "let the minutes rise by {more} more up to {week}",
    }
    sources: ClassVar[str] = (
        "30 % is common practice, no source (Nielsen et al. 2014, JOSPT, found no clear difference "
        "above it, in novice runners' kilometres); ACSM 2009, MSSE 41:687-708: small steps; a "
        "weekly 10 % is a convention (Buist et al. 2008, AJSM 36:33-9)"
    )

    up: int = Field(default=1, ge=1, le=11)
    down: int = Field(default=3, ge=1, le=11)
    volume_rise: int = Field(default=30, ge=0, le=200)
    allowance: int = Field(default=50, ge=0, le=1000)
    missed: int = Field(default=40, ge=0, le=600)
    yields: bool = True

    def shape(self, outline: Outline) -> None:
        """Let other rules know how steep a climb can be."""
        if self.price is None and not outline.soft and not self.waive:
            outline.step_up = self.up

    def post(self, board: Board) -> None:
        """Compare what leaves a block with what enters the next, layer by layer."""
        for before, after, closed_between in _joints(board):
            for index in range(len(board.season.qualities)):
                self._post_step(board, index, before, after, "up")
                if not closed_between:
                    self._post_step(board, index, before, after, "down")
        rooms = rooms_left(board.season)
        lost = [0 if room.usual or not self.yields else self.missed for room in rooms]
        for week in board.open_weeks():
            self._post_volume(board, week, lost)

    def _post_step(self, board: Board, index: int, before: int, after: int, way: str) -> None:
        """Bound the step from one block to the next: the rung that is higher leans on the other."""
        quality = board.season.qualities[index]
        most = (self.up if way == "up" else self.down) + self.free(after, quality.key, way)
        tag = self._step_tag(board, index, after, way, most)
        (top, high), (base, low) = (board.entering, after), (board.leaving, before)
        if way == "down":
            (top, high), (base, low) = (base, low), (top, high)
        for rung in range(most + 1, len(quality.bands)):
            for layer in board.layers(index):
                held = base(index, low, rung - most, layer)
                here = total([top(index, high, rung, layer), scaled(held, -1)])
                board.model.at_most(here, 0, tag)

    def _step_tag(self, board: Board, index: int, week: int, part: str, most: int) -> Tag:
        form = f"{{quality:may}} go {part} at most {{limit:rung}} into {{week}}"
        return self.tag(form, week, board.season.qualities[index], part, limit=most)

    def _post_volume(self, board: Board, week: int, lost: list[int]) -> None:
        four = [week - 3, week - 2, week - 1, week]
        if not set(four) <= set(board.open_weeks()):
            return
        tag = self.tag(
            "{now} may have at most {percent} % plus {allowance} min more than {before}",
            week,
            part="volume",
            unit="minutes",
            now=Span(week - 1, week),
            percent=self.volume_rise,
            allowance=self.allowance,
            before=Span(week - 3, week - 2),
        )
        now = total(board.minutes(day) for day in four[2:])
        before = total(board.minutes(day) for day in four[:2])
        high = 100 * (self.allowance + self.free(week, part="volume"))
        high += (100 + self.volume_rise) * sum(lost[day] for day in four[:2])
        terms = total([scaled(now, 100), scaled(before, -100 - self.volume_rise)])
        board.model.at_most(terms, high, tag, unit=100)

    def reach(self, plan: Plan, week: int) -> range:
        """Return the two weeks before the two weeks that end in ``week``."""
        return range(week - 3, week - 1)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Walk the weeks and compare each with the last one that had a rung."""
        found = []
        for index, quality in enumerate(season.qualities):
            row = plan.rungs[index]
            last: int | None = None
            for week, rung in enumerate(row):
                if rung is None:
                    continue
                if last is not None:
                    found += self._step(row, last, week, quality)
                last = week
        return found + self._volume(plan, season)

    def _step(
        self, row: tuple[int | None, ...], last: int, week: int, quality: Quality
    ) -> list[Breach]:
        now, before = row[week], row[last]
        assert now is not None
        assert before is not None
        steps = {"up": now - before - self.up}
        if last == week - 1:
            steps["down"] = before - now - self.down
        return [
            breach
            for part, over in steps.items()
            for breach in self.breaches(
                over,
                f"{{quality:goes}} {part} {{steps:rung}} into {{week}}",
                week,
                quality,
                part,
                steps=abs(now - before),
            )
        ]

    def _volume(self, plan: Plan, season: Season) -> list[Breach]:
        found: list[Breach] = []
        for week in range(3, len(season.weeks)):
            if any(season.weeks[past].closed for past in range(week - 3, week + 1)):
                continue
            minutes = [training_minutes(season, plan, past) for past in range(week - 3, week + 1)]
            now, before = minutes[2] + minutes[3], minutes[0] + minutes[1]
            for past in (week - 3, week - 2):
                if self.yields and not left_of(season, past).usual:
                    before += self.missed
            rise = -(-(100 * now - (100 + self.volume_rise) * before) // 100)
            found += self.breaches(
                rise - self.allowance,
                "{weeks} have {now} min, {before} min the two before",
                week,
                part="volume",
                unit="minutes",
                weeks=Span(week - 1, week),
                now=now,
                before=before,
            )
        return found

    def loosened(self) -> Self | None:
        """Return the rule with one rung more up."""
        return self.model_copy(update={"up": self.up + 1}) if self.up < 11 else None

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return (
            f"up to {counted(after.up, 'rung')} up from one block to the next instead of {self.up}"
        )

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"At most {counted(self.up, 'rung')} up and {self.down} down from block to block; two "
            f"weeks have at most {self.volume_rise} % plus {self.allowance} min more than the two "
            "open weeks before them (of which one with room for primers at most counts "
            f"{self.missed} min more)."
        )


def _joints(board: Board) -> list[tuple[int, int, bool]]:
    """Return where blocks can meet: end of one, start of the next, closed weeks between."""
    stretches = board.outline.stretches()
    inside = [(week, week, False) for part in stretches for week in part if week > part.start]
    across = [(a.stop, b.start, True) for a, b in itertools.pairwise(stretches)]
    return inside + across
