"""The contract of a coaching rule."""

import datetime as dt
from abc import abstractmethod
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Any, ClassVar, Literal, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import Subject, Tag
from optimiser.board.outline import Outline
from optimiser.days.crowding import crowding
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Quality
from optimiser.domain.season import Season
from optimiser.domain.sentence import Fact, Sentence
from optimiser.domain.strict import Strict
from optimiser.domain.week_number import number_of

#: More than any block has weeks.
ALL = 12
#: What a week is called that is made lighter than those around it.
Lighter = Literal["deload", "taper"]


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
    #: What people call it, where that is not its name.
    title: ClassVar[str] = ""
    #: What it asks for, as a coach would call it: many of something, as in "lighter weeks".
    asks: ClassVar[str] = ""
    unit: ClassVar[str] = "times"
    #: What each parameter, and each entry of one that is a table, is called beside its box; and
    #: what a choice is called, as in ``where=first``.
    labels: ClassVar[dict[str, str]] = {}
    sources: ClassVar[str] = "common practice, no source"
    #: True if it holds in a scenario that does not speak of it.
    in_use: ClassVar[bool] = True
    #: Parameters with other defaults where all who train are under 18.
    for_under_18: ClassVar[Mapping[str, Any]] = MappingProxyType({})
    #: True if it keeps people safe, but for parts that only make a plan better.
    safety: ClassVar[bool] = False
    no_safety: ClassVar[frozenset[str]] = frozenset()
    #: True if it holds what somebody chose for one place.
    wish: ClassVar[bool] = False
    #: True if one limit of it speaks of many weeks, so that it clashes with all of them in turn.
    wide: ClassVar[bool] = False
    #: True if one demand stands for so many rows that only the rule's own words can tell it.
    told_whole: ClassVar[bool] = False
    #: True if it caps the sessions of a week.
    caps_sessions: ClassVar[bool] = False
    #: What a week is called that the rule makes lighter.
    lightens: ClassVar[Lighter | None] = None
    #: Parameters that allow more plans as they rise, and as they fall.
    looser_up: ClassVar[frozenset[str]] = frozenset()
    looser_down: ClassVar[frozenset[str]] = frozenset()
    #: By part, or "" for all others: what it means to a coach that it gives way, as the form of a
    #: sentence. Facts are those of the row's own sentence, ``by`` and ``more`` (how much is given,
    #: without and with its unit), ``higher`` and ``lower`` (the limit then), and those of `tried`.
    eases: ClassVar[dict[str, str]] = {}
    #: What it means to a coach to do without the rule; "" where only its name says it.
    dropped: ClassVar[str] = ""
    #: For each part that yields to the calendar: how the plan tells it.
    told: ClassVar[dict[str, str]] = {}

    price: int | None = Field(default=None, ge=1, le=1_000_000)
    waive: tuple[Waiver, ...] = ()

    def shape(self, outline: Outline) -> None:
        """Forbid whole blocks or rungs."""

    @abstractmethod
    def post(self, board: Board) -> None:
        """Post the rule as rows."""

    @abstractmethod
    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Find every breach in a plan."""

    @abstractmethod
    def words(self) -> str:
        """Say it to the coach."""

    @classmethod
    def setting_words(cls, parameter: str, value: Any) -> str:
        """Say what it means to set a parameter, where its label and the value do not tell."""
        return ""

    def reason(self) -> str:
        """Say why it is there, without its numbers; where no more is said, its words."""
        return self.words()

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

    def step_words(self, after: Self) -> str:
        """Say to a coach what ``after``, the rule one step looser, allows instead."""
        return f"a looser rule {self.name}"

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

    def blamed(self, season: Season, plan: Plan, breaches: Sequence[Breach]) -> list[dt.date]:
        """Return the matches that one of its limits yields to where ``breaches`` would be some."""
        named = {breach.week for breach in breaches if breach.week is not None}
        weeks = {week for each in named for week in self.reach(plan, each)}
        return crowding(season, sorted(weeks))

    def marks(self, plan: Plan, season: Season) -> frozenset[int]:
        """Return the weeks (from 0) in which the rule asks for less, if it asks that of some."""
        return frozenset()

    @classmethod
    def keeps_safe(cls, part: str) -> bool:
        """Tell whether a part of the rule keeps people safe."""
        return cls.safety and part not in cls.no_safety

    def ease(self, place: Tag) -> str | None:
        """Return the form of `eases` by which ``place`` is told; None if there is none."""
        return self.eases.get(place.part) or self.eases.get("")

    def tried(self, season: Season, plan: Plan, place: Tag, by: int) -> Mapping[str, Fact]:
        """Return facts for the sentence of `eases`, from a plan in which ``place`` gives way."""
        return {}

    def on_joining(self, first: int, absent: int) -> Self | None:
        """Return the rule as a group keeps it that joins the squad in the middle of the season.

        Parameters
        ----------
        first
            The group's first open week, from 1.
        absent
            Weeks at the start in which it is away.

        Returns
        -------
        Rule or None
            None if the shared season answers for it.
        """
        return self

    def waived(self, *waivers: Waiver) -> Self:
        """Return the rule with more waivers."""
        return self.model_copy(update={"waive": (*self.waive, *waivers)})

    def free(self, week: int | None = None, quality: str | None = None, part: str = "") -> int:
        """Return how many units the waivers give in one place (week from 0)."""
        return sum(
            waiver.by
            for waiver in self.waive
            if waiver.week in (None, None if week is None else number_of(week))
            and waiver.quality in (None, quality)
            and waiver.part in (None, part)
        )

    def tag(
        self,
        form: str,
        week: int | None = None,
        quality: Quality | None = None,
        part: str = "",
        *,
        unit: str | None = None,
        limit: int | None = None,
        subject: Subject = "",
        **facts: Fact,
    ) -> Tag:
        """Return the tag of one row; ``form`` and ``facts`` are those of its sentence."""
        if limit is not None:
            facts["limit"] = limit
        key, name = (None, "") if quality is None else (quality.key, quality.name)
        says = Sentence(form, week, name, tuple(facts.items()))
        unit = unit or self.unit
        return Tag(self.name, week, key, says, part, unit, self.price, limit, subject)

    def breaches(
        self,
        excess: int,
        form: str,
        week: int | None = None,
        quality: Quality | None = None,
        part: str = "",
        *,
        unit: str | None = None,
        **facts: Fact,
    ) -> list[Breach]:
        """Return the breach of an excess in one place; none where the waivers give as much.

        Parameters
        ----------
        excess
            How far the plan misses the limit, in ``unit``; 0 or less where it keeps it.
        form, facts
            Those of the breach's sentence.
        """
        key, name = (None, "") if quality is None else (quality.key, quality.name)
        left = excess - self.free(week, key, part) if excess > 0 else 0
        if left <= 0:
            return []
        breach = Breach(
            rule=self.name,
            week=week,
            quality=key,
            part=part,
            excess=left,
            unit=unit or self.unit,
            says=Sentence(form, week, name, tuple(facts.items())),
        )
        return [breach]


def lighter_weeks(
    season: Season, plan: Plan, rules: Iterable[Rule], kind: Lighter
) -> frozenset[int]:
    """Return the weeks (from 0) that rules make lighter under one name."""
    chosen = (rule.marks(plan, season) for rule in rules if rule.lightens == kind)
    return frozenset().union(*chosen)
