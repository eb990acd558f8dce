"""The contract of a coaching rule."""

import datetime as dt
from abc import abstractmethod
from typing import ClassVar, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import Tag
from optimiser.board.outline import Outline
from optimiser.days.crowding import crowding
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.strict import Strict


class Waiver(Strict):
    """A place in which a rule is loosened.

    Parameters
    ----------
    week
        Counted from 1; left out, every week.
    quality
        Key; left out, every quality.
    part
        Which of the rule's limits; left out, all of them.
    by
        How many of the limit's units it gives way.
    """

    week: int | None = Field(default=None, ge=1)
    quality: str | None = None
    part: str | None = None
    by: int = Field(default=1, ge=1)


class Rule(Strict):
    """A coaching rule with four faces: parameters, ``post``, ``audit`` and ``words``.

    ``shape`` narrows the outline before variables exist and may be left alone. ``post`` and
    ``audit`` say the same thing and share no helper.

    Parameters
    ----------
    price
        Cost of one unit of excess; left out, the rule must hold.
    waive
        Places in which it gives way.
    """

    name: ClassVar[str]
    unit: ClassVar[str] = "times"
    safety: ClassVar[bool] = False
    #: True if one limit of it speaks of many weeks, so that it clashes with all of them in turn.
    wide: ClassVar[bool] = False
    sources: ClassVar[str] = "common practice, no source"
    #: For each part that yields to the calendar: how the plan tells it.
    told: ClassVar[dict[str, str]] = {}

    price: int | None = Field(default=None, ge=1, le=1_000_000)
    waive: tuple[Waiver, ...] = ()

    def shape(self, outline: Outline) -> None:
        """Forbid whole blocks, rungs or doses."""

    @abstractmethod
    def post(self, board: Board) -> None:
        """Post the rule as rows."""

    @abstractmethod
    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Find every breach in a plan."""

    @abstractmethod
    def words(self) -> str:
        """Say it to the coach."""

    def check(self, season: Season) -> None:
        """Raise ValueError if a parameter does not fit the season."""

    def loosened(self) -> Self | None:
        """Return the rule one step looser, by its one most obvious parameter.

        Returns
        -------
        Rule or None
            None if there is no such step. Every plan that keeps this rule keeps the looser one.
        """
        return None

    def unyielding(self) -> Self | None:
        """Return the rule as it is where the calendar leaves all the room it asks for.

        Returns
        -------
        Rule or None
            None if it never yields to the calendar.
        """
        if "yields" not in type(self).model_fields:
            return None
        return self.model_copy(update={"yields": False})

    def reach(self, plan: Plan, week: int) -> range:
        """Return the weeks (from 0) whose matches and breaks a limit of ``week`` yields to."""
        return range(week, week + 1)

    def blamed(self, season: Season, plan: Plan, breach: Breach) -> list[dt.date]:
        """Return the matches that a limit yields to where ``breach`` would be one."""
        weeks = () if breach.week is None else self.reach(plan, breach.week)
        return crowding(season, weeks)

    def marks(self, plan: Plan, season: Season) -> frozenset[int]:
        """Return the weeks (from 0) in which the rule asks for less, if it asks that of some."""
        return frozenset()

    def free(self, week: int | None = None, quality: str | None = None, part: str = "") -> int:
        """Return how many units the waivers give in one place (week from 0)."""
        return sum(
            waiver.by
            for waiver in self.waive
            if waiver.week in (None, None if week is None else week + 1)
            and waiver.quality in (None, quality)
            and waiver.part in (None, part)
        )

    def tag(
        self,
        says: str,
        week: int | None = None,
        quality: str | None = None,
        part: str = "",
        unit: str | None = None,
    ) -> Tag:
        """Return the tag of one row."""
        return Tag(self.name, week, quality, says, part, unit or self.unit, self.price)

    def breach(
        self,
        excess: int,
        words: str,
        week: int | None = None,
        quality: str | None = None,
        part: str = "",
        unit: str | None = None,
    ) -> Breach:
        """Return one breach."""
        return Breach(
            rule=self.name,
            week=week,
            quality=quality,
            part=part,
            excess=excess,
            unit=unit or self.unit,
            words=words,
        )
