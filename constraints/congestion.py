"""Congestion: fewer and easier sessions where matches crowd together."""

from bisect import bisect_right
from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import ClassVar, NamedTuple, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.rule import Rule
from optimiser.setup.matches import gaps, match_days

Fractional = dict[int, Fraction]


class Seen(NamedTuple):
    """What an audited week may hold: matches around its days, sessions, hard leg sessions."""

    crowd: int
    sessions: int
    hard: int


class Congestion(Rule):
    """Cap sessions, and hard sessions for the legs, by how close the matches are.

    A day without a match counts the matches of the seven days around it, three before and three
    after. It adds its part of a week's sessions, and the sum is taken to the nearest whole session.

    Parameters
    ----------
    sessions
        Sessions of a week whose days count 0, 1, 2, 3 or more matches.
    hard
        Hard lower-body sessions in the same cases; each makes room for ``pieces`` lower-body
        qualities above a touch, in the field or the gym.
    between
        Sessions that fit between two matches 1, 2, ... 7 days apart; spread evenly over the days
        between them, and added up over the week, to the nearest whole session.
    free_days
        Sessions for every seven days that are not between close matches.
    keeps
        Sessions that stay, however close the matches are, in a week with a day that has no match
        on it or on the day before, and not more than the least of ``sessions``: short touches are
        what keeps strength and speed.
    pieces
        Most qualities above a touch in one hard session.
    """

    name: ClassVar[str] = "congestion"
    asks: ClassVar[str] = "fewer sessions between matches close together"
    title: ClassVar[str] = "Crowded weeks"
    unit: ClassVar[str] = "sessions"
    labels: ClassVar[dict[str, str]] = {
        "sessions": "Most sessions, with 0, 1, 2, 3 matches around",
        "hard": "Hard leg sessions among them",
        "between": "Sessions between matches 1, 2, 3 ... days apart",
        "free_days": "Sessions in seven days away from matches",
        "keeps": "Sessions that stay however close the matches are",
        "pieces": "Most qualities in one hard session",
    }
    safety: ClassVar[bool] = True
    caps_sessions: ClassVar[bool] = True
    looser_up: ClassVar[frozenset[str]] = frozenset({"sessions", "hard", "between", "pieces"})
    eases: ClassVar[dict[str, str]] = {
        "sessions": "allow {higher} instead of {limit:session} in {week} ({busy:match} in 7 days)",
        "hard": (
            "allow {higher} instead of {limit:leg quality} above a touch in {week} "
            "({busy:match} in 7 days)"
        ),
    }
    sources: ClassVar[str] = (
        "Dupont et al. 2010, AJSM 38(9):1752-8; Bengtsson et al. 2018, BJSM 52(17):1116-22; Cross "
        "et al. 2019, EJSS 19(10):1287-96; session numbers are an engineering choice inside these"
    )

    sessions: tuple[int, int, int, int] = (5, 3, 2, 2)
    hard: tuple[int, int, int, int] = (3, 2, 1, 0)
    between: tuple[int, ...] = Field(default=(0, 0, 1, 1, 2, 3, 3), min_length=1, max_length=10)
    free_days: int = Field(default=5, ge=0, le=10)
    keeps: int = Field(default=2, ge=0, le=10)
    pieces: int = Field(default=3, ge=1, le=8)

    def post(self, board: Board) -> None:
        """Bound each week by the matches around its days and by the days between matches."""
        season = board.season
        played = match_days(season)
        room = self._room(season)
        for week in board.open_weeks():
            monday = season.weeks[week].monday.toordinal()
            free = [day for day in range(monday, monday + 7) if day not in set(played)]
            crowds = [_around(played, day) for day in free]
            most = min(_added_up(self.sessions, crowds), room[week])
            if any(day - 1 not in set(played) for day in free):
                most = max(most, min(self.keeps, *self.sessions))
            busy = max(crowds, default=7)
            self._post_sessions(board, week, busy, most)
            self._post_hard(board, week, busy, _added_up(self.hard, crowds))

    def _room(self, season: Season) -> list[int]:
        """Return the sessions that fit in each week by the days between its matches."""
        share: Fractional = {}
        for before, after in gaps(season):
            if after - before <= len(self.between):
                for day in range(before + 1, after):
                    share[day] = Fraction(self.between[after - before - 1], after - before - 1)
        played = {fixture.date.toordinal() for fixture in season.fixtures}
        return [self._rounded(week.monday.toordinal(), share, played) for week in season.weeks]

    def _rounded(self, monday: int, share: Mapping[int, Fraction], played: set[int]) -> int:
        usual = Fraction(self.free_days, 7)
        week = range(monday, monday + 7)
        return floor(
            sum((share.get(day, usual) for day in week if day not in played), Fraction(1, 2))
        )

    def _post_sessions(self, board: Board, week: int, busy: int, most: int) -> None:
        form = "at most {limit:session} in {week} ({busy:match} in 7 days)"
        tag = self.tag(form, week, part="sessions", limit=most, subject="sessions", busy=busy)
        spare = self.free(week, part="sessions")
        board.model.at_most(board.all_sessions(week), most + spare, tag)

    def _post_hard(self, board: Board, week: int, busy: int, sessions: int) -> None:
        flags = [
            board.at_least(index, week, Dose.REDUCED)
            for index, quality in enumerate(board.season.qualities)
            if quality.lower_body
        ]
        most = sessions * self.pieces
        if most >= len(flags):
            return
        form = "at most {limit:leg quality} above a touch in {week} ({busy:match} in 7 days)"
        tag = self.tag(form, week, part="hard", unit="pieces", limit=most, busy=busy)
        board.model.at_most(total(flags), most + self.free(week, part="hard"), tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Look at every day of every week on its own."""
        dates = [fixture.date.toordinal() for fixture in season.fixtures]
        found = []
        for week in season.weeks:
            if week.closed:
                continue
            monday = week.monday.toordinal()
            near = tuple(d for d in dates if abs(d - monday) <= 14 + len(self.between))
            found += self._week(plan, season, week.index, _seen(self, monday, near))
        return found

    def look(self, monday: int, dates: tuple[int, ...]) -> Seen:
        """Return what a week looked at day by day may hold."""
        days = sorted(set(dates))
        here = [day for day in range(monday, monday + 7) if day not in days]
        near = [len([d for d in dates if day - 3 <= d <= day + 3]) for day in here]
        fits = int(sum((self._day(day, days) for day in here), Fraction(1, 2)))
        sessions, hard = Fraction(1, 2), Fraction(1, 2)
        for crowd in near:
            column = crowd if crowd < 3 else 3
            sessions += Fraction(self.sessions[column], 7 - column)
            hard += Fraction(self.hard[column], 7 - column)
        most = min(int(sessions), fits)
        if [day for day in here if day - 1 not in days]:
            most = max(most, sorted([self.keeps, *self.sessions])[0])
        return Seen(max(near, default=7), most, int(hard))

    def _day(self, day: int, days: list[int]) -> Fraction:
        """Return what one day adds to a week's sessions."""
        if day in days:
            return Fraction(0)
        past = [match for match in days if match < day]
        coming = [match for match in days if match > day]
        if past and coming and min(coming) - max(past) <= len(self.between):
            gap = min(coming) - max(past)
            return Fraction(self.between[gap - 1], gap - 1)
        return Fraction(self.free_days, 7)

    def _week(self, plan: Plan, season: Season, week: int, seen: Seen) -> list[Breach]:
        hard = sum(
            quality.lower_body and plan.doses[index][week] > Dose.TOUCH
            for index, quality in enumerate(season.qualities)
        )
        rows = [
            ("sessions", "sessions", "session", plan.sessions(week), seen.sessions),
            ("hard", "pieces", "hard leg piece", hard, seen.hard * self.pieces),
        ]
        return [
            breach
            for part, unit, what, have, most in rows
            for breach in self.breaches(
                have - most,
                "{week:has} {have:{what}}, {most} at most with {crowd:match} in 7 days",
                week,
                part=part,
                unit=unit,
                have=have,
                what=what,
                most=most,
                crowd=seen.crowd,
            )
        ]

    def loosened(self) -> Self | None:
        """Return the rule with one session more, however close the matches are."""
        more = tuple(sessions + 1 for sessions in self.sessions)
        return self.model_copy(update={"sessions": more})

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return "one session more in every week with matches close together"

    def words(self) -> str:
        """Say it to the coach."""
        return (
            "Weeks whose days have 0, 1, 2, 3 or more matches in the 7 days around them hold at "
            f"most {_list(self.sessions)} sessions, of which hard for the legs "
            f"{_list(self.hard)}; fewer when matches are days apart, but "
            f"{min(self.keeps, *self.sessions)} stay where a day has no match on it or just before."
        )


def _list(numbers: tuple[int, ...]) -> str:
    return ", ".join(map(str, numbers))


def _around(played: list[int], day: int) -> int:
    """Return the matches of the seven days around ``day``."""
    return bisect_right(played, day + 3) - bisect_right(played, day - 4)


def _added_up(table: tuple[int, ...], crowds: list[int]) -> int:
    """Return what days with so many matches around them make of a week, to the nearest whole."""
    columns = [min(crowd, 3) for crowd in crowds]
    return floor(sum((Fraction(table[column], 7 - column) for column in columns), Fraction(1, 2)))


@lru_cache(maxsize=1024)
def _seen(rule: Congestion, monday: int, dates: tuple[int, ...]) -> Seen:
    """Return what the rule sees in a week; many plans of one season are audited in a row."""
    return rule.look(monday, dates)
