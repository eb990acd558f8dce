"""Edits of a season: what a fixture list or a rule set could become."""

import datetime as dt
from typing import Annotated, Any, Literal, Self

from pydantic import Discriminator, Field, Tag, model_validator

from optimiser.domain.calendar_day import CalendarDay
from optimiser.domain.fixture import Break, BreakKind, Priority
from optimiser.domain.quality import dose_of
from optimiser.domain.strict import Strict


class Move(Strict):
    """Play the fixture of ``date`` on another day.

    Parameters
    ----------
    kickoff
        New start time; left out, the old one stays.
    """

    edit: Literal["move"] = "move"
    date: CalendarDay
    to: CalendarDay
    kickoff: dt.time | None = None


class Add(Strict):
    """Add a fixture; see :class:`~optimiser.domain.fixture.Fixture`."""

    edit: Literal["add"] = "add"
    date: CalendarDay
    priority: Priority = Priority.LOW
    opponent: str = Field(default="", max_length=200)
    competition: str = Field(default="", max_length=200)
    venue: Literal["", "home", "away", "neutral"] = ""
    kickoff: dt.time | None = None
    minutes: float | None = Field(default=None, gt=0, le=1440)
    travel_hours: float = Field(default=0.0, ge=0, le=48)
    target: float | None = Field(default=None, ge=0, le=100)
    weight: int | None = Field(default=None, ge=1, le=100)


class Drop(Strict):
    """Take the fixture of a day out."""

    edit: Literal["drop"] = "drop"
    date: CalendarDay


class Rank(Strict):
    """Give the fixture of a day another priority."""

    edit: Literal["rank"] = "rank"
    date: CalendarDay
    priority: Priority


class Describe(Strict):
    """Say otherwise what the fixture of a day is; what is left out stays.

    Parameters
    ----------
    kickoff
        Local start time.
    """

    edit: Literal["describe"] = "describe"
    date: CalendarDay
    opponent: str | None = Field(default=None, max_length=200)
    competition: str | None = Field(default=None, max_length=200)
    venue: Literal["", "home", "away", "neutral"] | None = None
    kickoff: dt.time | None = None
    travel_hours: float | None = Field(default=None, ge=0, le=48)


class _Days(Strict):
    first: CalendarDay
    last: CalendarDay

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.last < self.first:
            raise ValueError(
                f"last must not come before first (got {self.first} to {self.last}); swap them"
            )
        return self


class Close(_Days):
    """Allow no training from ``first`` to ``last``, both counted."""

    edit: Literal["close"] = "close"
    note: str = Field(default="", max_length=200)


class Open(_Days):
    """Take rest and exams off the days from ``first`` to ``last``, both counted."""

    edit: Literal["open"] = "open"


class AddBreak(Break):
    """Add a break of any kind; see :class:`~optimiser.domain.fixture.Break`."""

    edit: Literal["add_break"] = "add_break"


class DropBreak(_Days):
    """Take out the break of some kind that lasts from ``first`` to ``last``."""

    edit: Literal["drop_break"] = "drop_break"
    kind: BreakKind


class Set(Strict):
    """Give a rule's parameter another value; ``a.b`` names the entry ``b`` of a table ``a``."""

    edit: Literal["set"] = "set"
    rule: str
    parameter: str = Field(min_length=1)
    value: Any


class RuleOff(Strict):
    """Drop a rule."""

    edit: Literal["drop_rule"] = "drop_rule"
    rule: str


class RuleOn(Strict):
    """Use a rule the scenario dropped, or give it other parameters than it has."""

    edit: Literal["add_rule"] = "add_rule"
    rule: str
    parameters: dict[str, Any] = Field(default_factory=dict)


class PinChoice(Strict):
    """Decide one choice: ``band`` (code, or rung from 1), ``dose``, or both; week from 1."""

    edit: Literal["pin"] = "pin"
    week: int = Field(ge=1)
    quality: str
    band: str | int | None = None
    dose: str | None = None

    @model_validator(mode="after")
    def _check_choice(self) -> Self:
        if self.band is None and self.dose is None:
            raise ValueError("a pin must give a band, a dose or both (got neither); add one")
        if self.dose is not None:
            dose_of(self.dose)
        return self


def _kind(given: Any) -> Any:
    return given.get("edit") if isinstance(given, dict) else getattr(given, "edit", None)


#: For the message.
KINDS = (
    "move, add, drop, rank, describe, close, open, add_break, drop_break, "
    "set, drop_rule, add_rule, pin"
)

Edit = Annotated[
    Annotated[Move, Tag("move")]
    | Annotated[Add, Tag("add")]
    | Annotated[Drop, Tag("drop")]
    | Annotated[Rank, Tag("rank")]
    | Annotated[Describe, Tag("describe")]
    | Annotated[Close, Tag("close")]
    | Annotated[Open, Tag("open")]
    | Annotated[AddBreak, Tag("add_break")]
    | Annotated[DropBreak, Tag("drop_break")]
    | Annotated[Set, Tag("set")]
    | Annotated[RuleOff, Tag("drop_rule")]
    | Annotated[RuleOn, Tag("add_rule")]
    | Annotated[PinChoice, Tag("pin")],
    Discriminator(
        _kind,
        custom_error_type="edit_kind",
        custom_error_message=f"must have an edit that is one of {KINDS}",
    ),
]
#: The type of each kind of edit.
EDITS: dict[str, type[Strict]] = {
    kind.model_fields["edit"].default: kind
    for kind in (
        *(Move, Add, Drop, Rank, Describe, Close, Open, AddBreak, DropBreak),
        *(Set, RuleOff, RuleOn, PinChoice),
    )
}
#: Edits of rules; the others change the calendar.
RULE_EDITS = (Set, RuleOff, RuleOn, PinChoice)


class Changes(Strict):
    """Edits that belong together.

    Parameters
    ----------
    edits
        Made in this order; each sees what those before it left.
    """

    name: str = Field(min_length=1, max_length=80)
    note: str = Field(default="", max_length=500)
    edits: tuple[Edit, ...] = Field(min_length=1, max_length=500)


class FutureSeason(Strict):
    """One way the season may go.

    Parameters
    ----------
    weight
        How likely it is, relative to the others.
    edits
        None: the season as it stands.
    """

    name: str = Field(min_length=1, max_length=80)
    weight: float = Field(default=1.0, gt=0, le=1e6)
    edits: tuple[Edit, ...] = Field(default=(), max_length=500)


class Futures(Strict):
    """Ways the season may go, one of which it will.

    Parameters
    ----------
    aim
        ``weighted`` mean of the match scores, or the ``worst`` of them.
    branch_week
        Week (from 1) from which it is known which one; left out, the first in which they differ.
    """

    name: str = Field(default="futures", min_length=1, max_length=80)
    aim: Literal["weighted", "worst"] = "weighted"
    branch_week: int | None = Field(default=None, ge=1)
    futures: tuple[FutureSeason, ...] = Field(min_length=2, max_length=20)

    @model_validator(mode="after")
    def _check_names(self) -> Self:
        names = [future.name for future in self.futures]
        twice = next((name for name in names if names.count(name) > 1), None)
        if twice:
            raise ValueError(f"names of futures must differ (got {twice!r} twice); rename one")
        return self
