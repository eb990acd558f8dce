"""What would help one match most: the weeks before it planned anew, all others as they are.

So little is left open that a search takes a second; what it finds is a plan that could be had, so
a change brings the match at least as much.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from optimiser.board.board import Board
from optimiser.change.decided import Decided
from optimiser.change.near import solve_near
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.explain.prices.looser import Change, looser, without_rule
from optimiser.joint_model.effort import Settings
from optimiser.review.score import readiness
from optimiser.rule import Rule

#: Weeks before the match that are open.
BACK = 6
#: Seconds of a search at most; its fixed effort ends it before.
SECONDS = 10.0


@dataclass(frozen=True)
class Before:
    """The weeks before one match.

    Parameters
    ----------
    week
        That of the match (index from 0).
    first
        First week of the season that is open.
    """

    season: Season
    rules: Sequence[Rule]
    plan: Plan
    week: int
    first: int
    settings: Settings

    def ready(self, season: Season | None = None, rules: Sequence[Rule] | None = None) -> float:
        """Return the most planned readiness found for the match, up to its target.

        Parameters
        ----------
        season, rules
            As they would be after a change; left out, as they are.
        """
        season = season or self.season
        found = solve_near(
            season, rules or self.rules, self.plan, self._short(), self._decided(), also=self._keep
        )
        plans = [self.plan] if found.plan is None else [self.plan, found.plan]
        return min(self._target, max(readiness(season, plan)[0][self.week] for plan in plans))

    def rule(self, name: str) -> tuple[Change, float]:
        """Return a rule made one step looser, or dropped where it has no step, and `ready`."""
        change, rules = looser(self.rules, name) or without_rule(self.rules, name)
        return change, self.ready(rules=rules)

    @property
    def _target(self) -> float:
        return self.season.weeks[self.week].target

    def _short(self) -> Settings:
        return replace(
            self.settings, quick=True, workers=1, seconds=min(self.settings.seconds, SECONDS)
        )

    def _decided(self) -> Decided:
        return Decided(self.plan, max(self.first, self.week - BACK))

    def _keep(self, board: Board) -> None:
        """Leave the weeks after the match as they are."""
        board.pin_doses(self.plan, [week for week in board.open_weeks() if week > self.week])
