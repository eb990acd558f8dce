"""Deload: one week of each block is lighter than the rest of it."""

from fractions import Fraction
from math import ceil, floor
from typing import ClassVar, Literal, Self

from pydantic import Field

from constraints.left import TOUCHES, crowd_of, left_of
from optimiser.board.board import Board
from optimiser.board.model import Tag, Terms, scaled, total
from optimiser.days.room import rooms_left
from optimiser.domain.breach import Breach
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.score import full_minutes, training_minutes
from optimiser.rule import Lighter, Rule
from optimiser.setup.matches import busiest_seven

#: Weeks up to a fixture that are lighter for its sake, by how it is eased into.
EASED = {Priority.HIGH: 2, Priority.MEDIUM: 1}


class Deload(Rule):
    """Lighten the first (or last, or every n-th) week of a block, sessions kept.

    Parameters
    ----------
    where
        The first or last week of each block, or one week in every few of the season.
    every
        Weeks from one lighter week to the next, where it is one in every few.
    of_full
        Most minutes of the deload week, in per cent of a week with everything at full dose; of a
        usual loading week of 140 min the default leaves 58 %.
    percent, allowance
        And at most so many per cent of the mean of the weeks it is set against (the block's other
        weeks, or the n - 1 weeks before) plus ``allowance``, which may be below 0: a light block
        opens lighter still, by 10 min unless changed. Weeks in which matches or breaks leave room
        for primers or touches at most, the last two weeks up to a high or peak fixture and the week
        of a medium one are passed over; where no other is left, this is not asked.
    sessions
        Sessions a deload week keeps at least, unless it has two matches in seven days or a break,
        or no room for a field and a gym session.
    yields
        False to ask it of every week, whatever matches and breaks leave.
    """

    name: ClassVar[str] = "deload"
    asks: ClassVar[str] = "lighter weeks"
    told: ClassVar[dict[str, str]] = {
        "volume": "a deload that is not below the rest of its block, which has little room itself",
        "sessions": "a deload with fewer sessions: its matches or breaks leave no room for more",
    }
    unit: ClassVar[str] = "minutes"
    labels: ClassVar[dict[str, str]] = {
        "where": "Which week is lighter",
        "where=first": "the first of each block",
        "where=last": "the last of each block",
        "where=every": "one in every few weeks",
        "every": "Weeks from one to the next, where it is one in every few",
        "of_full": "Most minutes, per cent of a full week",
        "percent": "Most minutes, per cent of its loading weeks",
        "allowance": "And so many minutes more, or less",
        "sessions": "Fewest sessions",
        "yields": "Asks less where matches and breaks leave no room",
    }
    lightens: ClassVar[Lighter | None] = "deload"
    looser_up: ClassVar[frozenset[str]] = frozenset({"percent", "allowance"})
    looser_down: ClassVar[frozenset[str]] = frozenset({"sessions"})
    eases: ClassVar[dict[str, str]] = {
        "volume": "let {week} have {more} more than a lighter week may",
        "of_full": "allow {higher} instead of {limit} min in {week}, a lighter week",
        "sessions": "let deload {week} hold {lower} instead of {limit:session}",
    }
    sources: ClassVar[str] = (
        "Rogerson et al. 2024, Sports Med Open 10:26: 6.4 days every 5.6 weeks, frequency kept; "
        "Bell et al. 2023, Sports Med Open 9:87"
    )

    where: Literal["first", "last", "every"] = "first"
    every: int = Field(default=4, ge=2, le=8)
    of_full: int = Field(default=45, ge=10, le=100)
    percent: int = Field(default=100, ge=10, le=100)
    allowance: int = Field(default=-10, ge=-600, le=600)
    sessions: int = Field(default=2, ge=0, le=6)
    yields: bool = True

    def post(self, board: Board) -> None:
        """Set the deload week against the mean of its block, for every block that could be."""
        rooms = rooms_left(board.season)
        crowds = busiest_seven(board.season)
        busy = [many if room.short else 7 for many, room in zip(crowds, rooms, strict=True)]
        easing = _easing(board.season)
        usual = {
            week
            for week, room in enumerate(rooms)
            if week not in easing
            and (not self.yields or (room.usual and room.hard and crowds[week] < TOUCHES))
        }
        if self.where == "every":
            self._post_every(board, busy, usual)
            return
        opened: dict[int, Terms] = {}
        for arc, block in board.arcs.items():
            if arc.length > 1:
                week = arc.start if self.where == "first" else arc.stop - 1
                others = [day for day in arc.weeks if day != week and day in usual]
                self._post_volume(board, week, others, block)
                self._post_sessions(board, week, busy, block)
                opened.setdefault(week, {})[block] = 1
        for week, blocks in sorted(opened.items()):
            self._post_of_full(board, week, blocks)

    def _post_every(self, board: Board, busy: list[int], usual: set[int]) -> None:
        open_weeks = set(board.open_weeks())
        for week in range(self.every - 1, len(board.season.weeks), self.every):
            others = list(range(week - self.every + 1, week))
            if {week, *others} <= open_weeks:
                self._post_volume(board, week, [day for day in others if day in usual], None)
                self._post_sessions(board, week, busy, None)
                self._post_of_full(board, week, {board.one: 1})

    def _post_volume(self, board: Board, week: int, others: list[int], block: int | None) -> None:
        if not others:
            return
        unit = 100 * len(others)
        spare = self.allowance + self.free(week, part="volume")
        rest = total(board.minutes(day) for day in others)
        terms = total([scaled(board.minutes(week), unit), scaled(rest, -self.percent)])
        board.model.at_most(terms, unit * spare, self._volume_tag(week), when=block, unit=unit)

    def _post_of_full(self, board: Board, week: int, deloads: Terms) -> None:
        """Cap a deload week: one row a week, tighter than one a block."""
        most = board.season.full_minutes()
        cap = most * self.of_full // 100 + self.free(week, part="of_full")
        tag = self.tag(
            "if a deload, {week:has} at most {limit} min ({percent} % of a full week)",
            week,
            part="of_full",
            limit=cap,
            subject="minutes",
            percent=self.of_full,
        )
        if cap < most:
            terms = total([board.minutes(week), scaled(deloads, most - cap)])
            board.model.at_most(terms, most, tag)

    def _volume_tag(self, week: int) -> Tag:
        return self.tag(
            "if a deload, {week:has} at most {percent} % of the mean minutes of the loading weeks "
            "around it {allowance:+d} min",
            week,
            part="volume",
            subject="minutes",
            percent=self.percent,
            allowance=self.allowance,
        )

    def _post_sessions(self, board: Board, week: int, busy: list[int], block: int | None) -> None:
        least = self.sessions - self.free(week, part="sessions")
        spared = busy[week] >= 2 or board.season.weeks[week].session_limit is not None
        if least <= 0 or (spared and self.yields):
            return
        form = "if a deload, {week:keeps} at least {limit:session}"
        tag = self.tag(form, week, part="sessions", unit="sessions", limit=self.sessions)
        held: Terms = board.all_sessions(week)
        board.model.at_least(held, least, tag, when=block)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Look at each deload week and the weeks it is set against."""
        return [
            breach
            for week, others in self._pairs(plan, season)
            for breach in (
                *self._of_full(plan, season, week),
                *self._volume(plan, season, week, others),
                *self._kept(plan, season, week),
            )
        ]

    def reach(self, plan: Plan, week: int) -> range:
        """Return the weeks of the deload's block."""
        return next((block for block in plan.blocks() if week in block), range(week, week + 1))

    def marks(self, plan: Plan, season: Season) -> frozenset[int]:
        """Return the deload weeks."""
        return frozenset(week for week, _ in self._pairs(plan, season))

    def _pairs(self, plan: Plan, season: Season) -> list[tuple[int, list[int]]]:
        if self.where != "every":
            blocks = [list(block) for block in plan.blocks() if len(block) > 1]
            return [
                (block[0], block[1:]) if self.where == "first" else (block[-1], block[:-1])
                for block in blocks
            ]
        spans = [
            list(range(last + 1 - self.every, last + 1))
            for last in range(len(season.weeks))
            if (last + 1) % self.every == 0
        ]
        whole = [span for span in spans if not any(season.weeks[week].closed for week in span)]
        return [(span[-1], span[:-1]) for span in whole]

    def _of_full(self, plan: Plan, season: Season, week: int) -> list[Breach]:
        minutes = training_minutes(season, plan, week)
        full = full_minutes(season)
        over = ceil(minutes - floor(Fraction(full * self.of_full, 100)))
        form = "deload {week:has} {minutes} min, a full week would have {full}"
        return self.breaches(over, form, week, part="of_full", minutes=minutes, full=full)

    def _volume(self, plan: Plan, season: Season, week: int, others: list[int]) -> list[Breach]:
        minutes = training_minutes(season, plan, week)
        against = [d for d in others if not _leads_up(season, d) and self._roomy(season, d)]
        held = [training_minutes(season, plan, day) for day in against]
        if not held:
            return []
        mean = Fraction(sum(held), len(held))
        over = ceil(minutes - Fraction(self.percent, 100) * mean) - self.allowance
        form = "deload {week:has} {minutes} min, its loading weeks {mean:.0f} on average"
        return self.breaches(over, form, week, part="volume", minutes=minutes, mean=float(mean))

    def _roomy(self, season: Season, week: int) -> bool:
        left = left_of(season, week)
        return not self.yields or (left.usual and left.hard and crowd_of(season, week) < TOUCHES)

    def _kept(self, plan: Plan, season: Season, week: int) -> list[Breach]:
        spared = crowd_of(season, week) > 1 or season.weeks[week].session_limit is not None
        if self.yields and (spared or not left_of(season, week).short):
            return []
        form, have = "deload {week:has} {have:session}", plan.sessions(week)
        short = self.sessions - have
        return self.breaches(short, form, week, part="sessions", unit="sessions", have=have)

    def loosened(self) -> Self | None:
        """Return the rule with 10 % more in the lighter week."""
        if self.percent >= 100 and self.of_full >= 100:
            return None
        more = {name: min(100, getattr(self, name) + 10) for name in ("of_full", "percent")}
        return self.model_copy(update=more)

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        less, more = self.of_full, after.of_full
        if less == more:
            less, more = self.percent, after.percent
            return f"lighter weeks at up to {more} % of their loading weeks instead of {less} %"
        return f"lighter weeks at up to {more} % of a full week instead of {less} %"

    def reason(self) -> str:
        """Say why it is there."""
        which = {
            "first": "Every block opens with",
            "last": "Every block ends with",
            "every": "Every few weeks there is",
        }[self.where]
        return (
            f"{which} a lighter week, so that the work before it can pay off; it keeps a few short "
            "sessions, so that nothing is lost."
        )

    def words(self) -> str:
        """Say it to the coach."""
        which = {
            "first": "The first week of each block",
            "last": "The last week of each block",
            "every": f"Every {self.every}th week",
        }[self.where]
        aside = ", run-ins and crowded weeks aside" if self.yields else ", run-ins aside"
        return (
            f"{which} has at most {self.of_full} % of a full week's minutes and {self.percent} % "
            f"of the weeks around it{aside} ({self.allowance:+d} min), and keeps at least "
            f"{self.sessions} sessions."
        )


def _easing(season: Season) -> set[int]:
    """Return the weeks that lead up to fixtures, walking back from them."""
    return {
        fixture_week - back
        for priority, weeks in EASED.items()
        for fixture_week in season.weeks_with(priority)
        for back in range(weeks)
    }


def _leads_up(season: Season, week: int) -> bool:
    """Tell whether a fixture of this week or the next asks a week to ease."""
    ahead = season.weeks[week : week + 2]
    great = any(fixture.priority.great for each in ahead for fixture in each.fixtures)
    medium = any(fixture.priority is Priority.MEDIUM for fixture in season.weeks[week].fixtures)
    return great or medium
