"""Retesting: a lighter week that can hold tests comes up every so often."""

import datetime as dt
from collections.abc import Iterable
from itertools import groupby
from typing import ClassVar, Literal, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import Tag, Terms
from optimiser.board.outline import Arc
from optimiser.domain.breach import Breach
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.sentence import Span
from optimiser.rule import Rule

#: Days of a week on which tests may stand: Sunday is none of them.
TEST_DAYS = 6
#: Weeks of the shortest block that is usual.
SHORT = 3


class Retesting(Rule):
    """Put a lighter week where tests can be held into any so many weeks in a row.

    Which of these weeks tests are held in follows from the plan: 6 to 12 weeks apart, on a day of
    the second half of the week where there is one.

    Parameters
    ----------
    weeks
        Any so many weeks in a row hold such a week.
    lighter
        Which week of a block is the lighter one, as the deload rule has it.
    after, before
        Least days from a match to the tests, and from them to the next one.
    clear
        Weeks up to a high fixture, its own counted in, that are no time for tests.
    run
        Asked only where so many weeks in a row of one phase could hold tests, and a block of three
        weeks or more can begin, or end, in one of them.
    yields
        False to ask it of all weeks, whatever matches and breaks leave.
    """

    name: ClassVar[str] = "retesting"
    asks: ClassVar[str] = "lighter weeks for tests"
    unit: ClassVar[str] = "weeks for tests"
    labels: ClassVar[dict[str, str]] = {
        "weeks": "A week for tests in any so many weeks",
        "lighter": "Which week of a block is lighter",
        "lighter=first": "the first",
        "lighter=last": "the last",
        "after": "Days from a match to the tests",
        "before": "Days from the tests to a match",
        "clear": "Not in so many weeks up to a high match",
        "run": "Asked where so many weeks in a row have room",
        "yields": "Asks nothing where matches and breaks leave no room",
    }
    wide: ClassVar[bool] = True
    looser_up: ClassVar[frozenset[str]] = frozenset({"weeks", "run"})
    looser_down: ClassVar[frozenset[str]] = frozenset({"after", "before", "clear"})
    eases: ClassVar[dict[str, str]] = {"": "go without a lighter week for tests in {where}"}
    told: ClassVar[dict[str, str]] = {
        "": "no week for tests: matches, tapers and breaks leave no days for them, or too few"
    }

    weeks: int = Field(default=12, ge=1, le=52)
    lighter: Literal["first", "last"] = "first"
    after: int = Field(default=3, ge=1, le=7)
    before: int = Field(default=4, ge=1, le=7)
    clear: int = Field(default=2, ge=0, le=6)
    run: int = Field(default=4, ge=1, le=12)
    yields: bool = True

    def post(self, board: Board) -> None:
        """Post every window that is asked: one of its weeks opens, or closes, a block."""
        season = board.season
        able = self._able(season)
        for window in self._windows(season):
            if self._asked(season, able, window) and not self.free(window[-1]):
                held = self._lighter(board, able & set(window))
                if held:
                    board.model.at_least(held, 1, self._tag(window))
                else:
                    board.model.at_most({board.one: 1}, 0, self._tag(window))

    def _lighter(self, board: Board, weeks: set[int]) -> Terms:
        """Return 1 or more if one of some weeks is the lighter one of a block."""
        arcs = ((arc, var) for arc, var in board.arcs.items() if arc.length > 1)
        return {var: 1 for arc, var in arcs if self._lighter_week(arc) in weeks}

    def _windows(self, season: Season) -> list[range]:
        last = len(season.weeks) - self.weeks
        return [range(first, first + self.weeks) for first in range(last + 1)]

    def _lighter_week(self, arc: Arc) -> int:
        return arc.start if self.lighter == "first" else arc.stop - 1

    def _able(self, season: Season) -> set[int]:
        """Return the weeks that could hold tests."""
        matches = [fixture.date for fixture in season.fixtures]
        tapers = {
            week - back for week in season.weeks_with(Priority.HIGH) for back in range(self.clear)
        }
        found = set()
        for week in season.weeks:
            away = [(item.first, item.last) for item in week.breaks]
            days = (week.monday + dt.timedelta(days=day) for day in range(TEST_DAYS))
            free = (
                all(not first <= day <= last for first, last in away)
                and all(not -self.after < (match - day).days < self.before for match in matches)
                for day in days
            )
            if not week.closed and week.index not in tapers and any(free):
                found.add(week.index)
        return found

    def _asked(self, season: Season, able: set[int], window: Iterable[int]) -> bool:
        if not self.yields:
            return True
        opens = self._seams(season)
        runs = groupby(window, key=lambda week: (week in able, season.weeks[week].phase))
        held = [list(run) for (there, _), run in runs if there]
        return any(len(run) >= self.run and not opens.isdisjoint(run) for run in held)

    def _seams(self, season: Season) -> set[int]:
        """Return the weeks that can be the lighter one: no block near a phase's end is short."""
        stretches = groupby(season.weeks, key=lambda week: (week.closed, week.phase))
        found = set()
        for _, group in stretches:
            weeks = [week.index for week in group]
            cuts = {0, *range(SHORT, len(weeks) - SHORT + 1)}
            if self.lighter == "last":
                cuts = {len(weeks) - 1 - cut for cut in cuts}
            found |= {weeks[cut] for cut in cuts}
        return found

    def _tag(self, window: range) -> Tag:
        form = "a lighter week in {where} can hold tests"
        return self.tag(form, window[-1], where=Span(window[0], window[-1]))

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Walk the weeks, with how long ago the last lighter week for tests was."""
        end = 0 if self.lighter == "first" else -1
        lighter = {block[end] for block in plan.blocks() if len(block) > 1}
        room = [self._holds_tests(season, week) for week in range(len(season.weeks))]
        form = "{where:has} no lighter week for tests"
        found: list[Breach] = []
        since = 0
        for week in range(len(season.weeks)):
            since = 0 if week in lighter and room[week] else since + 1
            first = week - self.weeks + 1
            if first < 0 or since < self.weeks:
                continue
            if not self.yields or self._longest(season, room, first, week) >= self.run:
                found += self.breaches(1, form, week, where=Span(first, week))
        return found

    def _holds_tests(self, season: Season, week: int) -> bool:
        """Tell whether a week has a day for tests, match by match."""
        here, monday = season.weeks[week], season.weeks[week].monday.toordinal()
        if here.closed:
            return False
        important = [
            later
            for later in range(week, min(week + self.clear, len(season.weeks)))
            if any(f.priority.great for f in season.weeks[later].fixtures)
        ]
        if important:
            return False
        taken: set[int] = set()
        for fixture in season.fixtures:
            day = fixture.date.toordinal()
            taken |= set(range(day - self.before + 1, day + self.after))
        for item in here.breaks:
            taken |= set(range(item.first.toordinal(), item.last.toordinal() + 1))
        return not set(range(monday, monday + TEST_DAYS)) <= taken

    def _longest(self, season: Season, room: list[bool], first: int, last: int) -> int:
        """Return the most weeks in a row of one phase that have room for tests."""
        longest = so_far = 0
        seam = False
        for week in range(first, last + 1):
            same = week > first and season.weeks[week].phase is season.weeks[week - 1].phase
            so_far = (so_far if same else 0) + 1 if room[week] else 0
            seam = room[week] and ((seam and so_far > 1) or self._is_seam(season, week))
            longest = max(longest, so_far if seam else 0)
        return longest

    def _is_seam(self, season: Season, week: int) -> bool:
        """Tell whether a block can begin, or end, in a week, counting the weeks on either side."""
        before, after = _alike(season, week, -1), _alike(season, week, 1)
        inside, outside = (before, after + 1) if self.lighter == "first" else (after, before + 1)
        return not inside or (inside >= SHORT and outside >= SHORT)

    def reach(self, plan: Plan, week: int) -> range:
        """Return the weeks of the window that ends in ``week``."""
        return range(max(0, week - self.weeks + 1), week + 1)

    def on_joining(self, first: int, absent: int) -> Self | None:
        """Leave it to the shared season: blocks are those of all."""
        return None

    def loosened(self) -> Self | None:
        """Return the rule with four weeks more from one to the next."""
        if self.weeks >= 52:
            return None
        return self.model_copy(update={"weeks": min(52, self.weeks + 4)})

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return f"a week for tests in any {after.weeks} weeks instead of {self.weeks}"

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"Any {self.weeks} weeks in a row have a lighter week with a day for tests, at least "
            f"{self.after} days after a match and {self.before} before the next and not in the "
            f"{self.clear} weeks up to a high fixture, where {self.run} weeks in a row leave room "
            "and a block can begin in one."
        )


def _alike(season: Season, week: int, step: int) -> int:
    """Return how many open weeks of the same phase follow on one side of a week."""
    here, count = season.weeks[week], 0
    for other in season.weeks[week + step :: step] if week + step >= 0 else ():
        if other.closed or other.phase is not here.phase:
            break
        count += 1
    return count
