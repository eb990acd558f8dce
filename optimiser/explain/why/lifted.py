"""More readiness at one match, as a rule that must hold."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from optimiser.board.board import Board
from optimiser.board.model import Tag
from optimiser.change.decided import Decided
from optimiser.change.freeze import board_from
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.joint_model.drive import drive_model, weekly
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.ready_terms import ready_terms
from optimiser.response.readiness import UNITS, kernel
from optimiser.review.score import readiness
from optimiser.rule import Rule

#: Gap at which the search for the most ends, and its steps; what is least is how far readiness is
#: below so many points.
NEAR, STEPS, SCALE = 0.002, 100, 200
LIFTED = "planned readiness reaches {level} at {match} in {week}"


class Lifted(Rule):
    """What a person asked of a match.

    Parameters
    ----------
    week
        From 0.
    level
        Planned readiness it is to reach at least, in points.
    match
        What the match is called.
    """

    name: ClassVar[str] = "asked"
    unit: ClassVar[str] = "points"
    wish: ClassVar[bool] = True

    week: int
    level: float
    match: str

    def post(self, board: Board) -> None:
        """Hold the sum of what all work up to the week brings and costs."""
        tables, background = kernel(board.season).whole()
        least = math.ceil(self.level * UNITS) - int(background[self.week])
        terms = ready_terms(board, tables, self.week)
        board.model.at_least(terms, least, self._tag())

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Compare with the plan's readiness."""
        ready = readiness(season, plan)[0][self.week]
        excess = math.ceil(round(self.level - ready, 2))
        form, level = f"not so: {LIFTED}", f"{self.level:g}"
        return self.breaches(excess, form, self.week, level=level, match=self.match)

    def says(self, season: Season) -> str:
        """Return it in words."""
        return str(self._tag().says)

    def _tag(self) -> Tag:
        return self.tag(LIFTED, self.week, level=f"{self.level:g}", match=self.match)

    def words(self) -> str:
        """Say it to the coach."""
        return f"More readiness is asked for in week {number_of(self.week)}."


@dataclass(frozen=True)
class Attainable:
    """How ready a week (from 0) can be.

    Parameters
    ----------
    plan
        One that keeps the rules and has ``most`` points there.
    ceiling
        Points that no plan keeping the rules exceeds.
    """

    plan: Plan
    most: float
    ceiling: float


def reach(
    season: Season,
    rules: Sequence[Rule],
    plan: Plan,
    week: int,
    settings: Settings,
    decided: Decided | None = None,
) -> Attainable:
    """Return how ready a week can be whatever becomes of all others.

    Parameters
    ----------
    plan
        One that keeps the rules, to start from.
    """
    board = board_from(season, rules, decided)
    tables, background = kernel(season).whole()
    model, given = board.model, int(background[week])
    model.charge, model.offset = 0, SCALE * UNITS - given
    model.cost = {var: -gain for var, gain in ready_terms(board, tables, week).items()}
    asked = replace(settings, close=NEAR, steps=STEPS)
    found = drive_model(model, board.hint(plan), weekly(board), asked, known=True)
    better = board.read(found.values) if found.values else plan
    most = max((plan, better), key=lambda each: readiness(season, each)[0][week])
    ceiling = SCALE - found.bound / UNITS
    return Attainable(most, float(readiness(season, most)[0][week]), ceiling)
