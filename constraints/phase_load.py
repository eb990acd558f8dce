"""Phase load: in season there is less training on average than in the pre-season before."""

from fractions import Fraction
from itertools import groupby
from math import ceil, gcd
from typing import ClassVar, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import scaled, total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Phase, Season
from optimiser.domain.sentence import Span
from optimiser.domain.week_number import number_of
from optimiser.review.score import training_load
from optimiser.rule import Rule

#: The share from which on nothing is asked.
UNASKED = 200


class PhaseLoad(Rule):
    """Hold the mean load of in-season weeks under a share of the pre-season's that came before.

    Own sessions and team practice count, matches do not. A stretch of in-season weeks is held
    against the pre-season weeks right before it; closed weeks are passed over.

    Parameters
    ----------
    percent
        Most per cent of the pre-season mean; at 200 nothing is asked.
    """

    name: ClassVar[str] = "phase_load"
    asks: ClassVar[str] = "loads that follow the phase"
    title: ClassVar[str] = "Load of a phase"
    unit: ClassVar[str] = "AU a week"
    labels: ClassVar[dict[str, str]] = {
        "percent": "Most load of a week in season, per cent of the pre-season mean",
    }
    wide: ClassVar[bool] = True
    looser_up: ClassVar[frozenset[str]] = frozenset({"percent"})
    eases: ClassVar[dict[str, str]] = {
        "": "let {here}, in season, have {more} more than their share of the pre-season's"
    }
    sources: ClassVar[str] = (
        "Road to Rio, Front Sports Act Living 2020;1:72: 38 % lower in season in a sevens year; "
        "what share to ask for is the coach's choice"
    )

    percent: int = Field(default=UNASKED, ge=10, le=UNASKED)

    def post(self, board: Board) -> None:
        """Post one row for each stretch that has a pre-season."""
        if self.percent == UNASKED:
            return
        weeks = board.season.weeks
        before: list[int] = []
        for phase, stretch in groupby(range(len(weeks)), key=lambda week: weeks[week].phase):
            here = [week for week in stretch if not weeks[week].closed]
            if phase is Phase.IN and here and before:
                self._post_stretch(board, here, before)
            before = here if phase is Phase.PRE else []

    def _post_stretch(self, board: Board, here: list[int], before: list[int]) -> None:
        # mean of one at most a share of the mean of the other, free of fractions
        ours, theirs = 100 * len(before), self.percent * len(here)
        common = gcd(ours, theirs)
        unit = 100 * len(before) * len(here) // common
        ours, theirs = ours // common, theirs // common
        terms = total(
            [scaled(board.load(week), ours) for week in here]
            + [scaled(board.load(week), -theirs) for week in before]
        )
        weeks = board.season.weeks
        practice = theirs * sum(weeks[week].practice_load for week in before)
        practice -= ours * sum(weeks[week].practice_load for week in here)
        tag = self.tag(
            "{here} have on average at most {percent} % of the training load of the pre-season, "
            "{before}",
            here[0],
            here=Span(here[0], here[-1]),
            percent=self.percent,
            before=Span(before[0], before[-1]),
        )
        high = practice + unit * self.free(here[0])
        board.model.at_most(terms, high, tag, unit=unit)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Carry the loads of the last pre-season along until a season has been held against it."""
        found: list[Breach] = []
        if self.percent == UNASKED:
            return found
        past: list[int] = []
        loads: dict[int, int] = {}
        for week in season.weeks:
            if not week.closed:
                own = training_load(season, plan, week.index)
                loads[week.index] = own + week.practice_load
            after = season.weeks[week.index + 1 : week.index + 2]
            if not after or after[0].phase is not week.phase:
                if week.phase is Phase.IN and loads and past:
                    found += self._judge(loads, past)
                past = list(loads.values()) if week.phase is Phase.PRE else []
                loads = {}
        return found

    def _judge(self, loads: dict[int, int], past: list[int]) -> list[Breach]:
        first = min(loads)
        most = Fraction(self.percent * sum(past), 100 * len(past))
        mean = Fraction(sum(loads.values()), len(loads))
        form = "the in-season weeks from {first} on have {mean} AU on average, {most} at most"
        begin, over = number_of(first), ceil(mean - most)
        return self.breaches(over, form, first, first=begin, mean=int(mean), most=int(most))

    def loosened(self) -> Self | None:
        """Return the rule with 5 % more of the pre-season's load."""
        if self.percent == UNASKED:
            return None
        return self.model_copy(update={"percent": min(UNASKED, self.percent + 5)})

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return (
            f"load in season up to {after.percent} % of the pre-season's instead of "
            f"{self.percent} %"
        )

    def words(self) -> str:
        """Say it to the coach."""
        if self.percent == UNASKED:
            return "How much in-season load falls below pre-season's is left open."
        return (
            f"In season the mean week has at most {self.percent} % of the training and practice "
            "load of the pre-season before it."
        )
