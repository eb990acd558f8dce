"""Load ramp: a week's total load may pass the recent mean only by so much."""

from fractions import Fraction
from math import ceil
from typing import ClassVar, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import scaled, total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.score import training_load
from optimiser.rule import Rule


class LoadRamp(Rule):
    """Limit each week's total load by the mean of the last four open weeks.

    Matches and team practice count, and are not this plan's to choose: where they alone rise so
    far that less than ``floor`` is left, own work is held against its own mean instead. No
    acute:chronic ratio is used.

    Parameters
    ----------
    percent
        Most per cent above the mean.
    allowance
        Load that is always allowed above it, in AU.
    floor
        Load by which own work may then pass its own mean, beside ``percent``, in AU.
    """

    name: ClassVar[str] = "load_ramp"
    asks: ClassVar[str] = "limits of a rise in load"
    title: ClassVar[str] = "Weekly rise limit"
    unit: ClassVar[str] = "AU"
    labels: ClassVar[dict[str, str]] = {
        "percent": "Most rise over the mean of the weeks before, per cent",
        "allowance": "A rise that is always allowed, AU",
        "floor": "Load that own work may reach in any case, AU above its mean",
    }
    looser_up: ClassVar[frozenset[str]] = frozenset({"percent", "allowance", "floor"})
    eases: ClassVar[dict[str, str]] = {"": "let the load of {week} rise by {more} more than it may"}
    sources: ClassVar[str] = (
        "common practice, no source; acute:chronic ratio avoided: Lolli "
        "et al. 2019, BJSM 53:921-2; Impellizzeri et al. 2021, Sports Med"
    )

    percent: int = Field(default=20, ge=0, le=200)
    allowance: int = Field(default=300, ge=0, le=5000)
    floor: int = Field(default=400, ge=0, le=5000)

    def post(self, board: Board) -> None:
        """Post one row a week over the open weeks before it."""
        open_weeks = board.open_weeks()
        for place, week in enumerate(open_weeks):
            past = open_weeks[max(0, place - 4) : place]
            if past:
                self._post_week(board, week, past)

    def _post_week(self, board: Board, week: int, past: list[int]) -> None:
        fixed = [board.season.weeks[day].fixed_load for day in past]
        here = board.season.weeks[week].fixed_load
        share = 100 + self.percent
        usual = Fraction(share * sum(fixed), 100 * len(past)) + self.allowance
        credit = max(0, ceil(here + self.floor - usual))
        unit = 100 * len(past)
        own = total(board.load(day) for day in past)
        terms = total([scaled(board.load(week), unit), scaled(own, -share)])
        spare = self.allowance + credit + self.free(week)
        high = unit * (spare - here) + share * sum(fixed)
        tag = self.tag(
            "{week:has} at most {percent} % plus {allowance} AU more load than the mean of the "
            "{past:open week} before",
            week,
            percent=self.percent,
            allowance=self.allowance,
            past=len(past),
        )
        board.model.at_most(terms, high, tag, unit=unit)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Carry the loads of the last open weeks along."""
        found: list[Breach] = []
        recent: list[tuple[int, int]] = []
        for week in season.weeks:
            if week.closed:
                continue
            own = training_load(season, plan, week.index)
            if recent:
                most = self._most(recent, week.fixed_load)
                form, have = "{week:has} {have} AU, {most} at most", own + week.fixed_load
                over = ceil(have - most)
                found += self.breaches(over, form, week.index, have=have, most=int(most))
            recent = [*recent, (own, week.fixed_load)][-4:]
        return found

    def _most(self, recent: list[tuple[int, int]], fixed: int) -> Fraction:
        factor = Fraction(100 + self.percent, 100) / len(recent)
        usual = factor * sum(own + other for own, other in recent) + self.allowance
        given = factor * sum(other for _, other in recent) + self.allowance
        return usual + max(0, ceil(fixed + self.floor - given))

    def loosened(self) -> Self | None:
        """Return the rule with 10 % more above the mean."""
        if self.percent >= 200:
            return None
        return self.model_copy(update={"percent": min(200, self.percent + 10)})

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return (
            f"load up to {after.percent} % above the mean of the last four weeks instead of "
            f"{self.percent} %"
        )

    def words(self) -> str:
        """Say it to the coach."""
        return (
            f"A week's load is at most {self.percent} % plus {self.allowance} AU above the mean of "
            f"the last four open weeks. Where practice and matches alone leave less than "
            f"{self.floor} AU under {self.percent} % plus {self.allowance} AU above their own "
            f"mean, own work is held by itself: at most {self.percent} % plus {self.floor} AU "
            "above its own mean."
        )
