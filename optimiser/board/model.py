"""A linear model over whole-number variables, written once and handed to any solver."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from optimiser.domain.sentence import UNSAID, Sentence

#: What a limit is a number of, if it stands by itself: the rung a quality stands on (from 1), the
#: dose it gets, or all minutes or sessions of the week.
Subject = Literal["", "rung", "dose", "minutes", "sessions"]
Terms = dict[int, int]


@dataclass(frozen=True, slots=True)
class Tag:
    """Which rule a row speaks for, and where.

    Parameters
    ----------
    rule
        Name of the rule.
    week
        Index from 0, or None.
    quality
        Key, or None.
    says
        The row as a sentence.
    part
        Which of the rule's limits, if it has several.
    unit
        What excess is counted in.
    price
        Cost of one unit of excess; None if the row must hold.
    limit
        The number that the row holds something to, in ``unit``; None if there is no such.
    subject
        What ``limit`` is a number of.
    """

    rule: str
    week: int | None
    quality: str | None
    says: Sentence = UNSAID
    part: str = ""
    unit: str = "times"
    price: int | None = None
    limit: int | None = None
    subject: Subject = ""


@dataclass(frozen=True, slots=True)
class Row:
    """``low <= sum(coefficient * variable) <= high``, if ``when`` is 1.

    Parameters
    ----------
    unit
        How much one unit of excess widens the row.
    """

    terms: Terms
    low: int | None
    high: int | None
    when: int | None = None
    tag: Tag | None = None
    unit: int = 1

    @property
    def firm(self) -> bool:
        """Tell whether every solution keeps it: it has no condition, nor a price to be let off."""
        return self.when is None and (self.tag is None or self.tag.price is None)


@dataclass
class Model:
    """Variables by index, rows and a cost to be minimised.

    Parameters
    ----------
    charge
        What one unit of the price of a row's excess adds to the cost.
    fine
        Variables that are whole wherever all others are, as rows and costs are whole: searches
        may take them as continuous.
    implied
        The same for variables that are as small as flags, which need no other scale.
    """

    lower: list[int] = field(default_factory=list)
    upper: list[int] = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    cost: dict[int, int] = field(default_factory=dict)
    offset: int = 0
    charge: int = 1
    fine: set[int] = field(default_factory=set)
    implied: set[int] = field(default_factory=set)

    def var(self, low: int, high: int, name: str) -> int:
        """Add a whole-number variable and return its index."""
        self.lower.append(low)
        self.upper.append(high)
        self.names.append(name)
        return len(self.lower) - 1

    def flag(self, name: str) -> int:
        """Add a 0-1 variable and return its index."""
        return self.var(0, 1, name)

    def at_most(
        self,
        terms: Mapping[int, int],
        high: int,
        tag: Tag | None = None,
        *,
        when: int | None = None,
        unit: int = 1,
    ) -> None:
        """Post ``sum <= high``."""
        self.rows.append(Row(dict(terms), None, high, when, tag, unit))

    def at_least(
        self,
        terms: Mapping[int, int],
        low: int,
        tag: Tag | None = None,
        *,
        when: int | None = None,
        unit: int = 1,
    ) -> None:
        """Post ``sum >= low``."""
        self.rows.append(Row(dict(terms), low, None, when, tag, unit))

    def between(self, terms: Mapping[int, int], low: int, high: int) -> None:
        """Post ``low <= sum <= high``; without a tag, as nothing of it is up for argument."""
        self.rows.append(Row(dict(terms), low, high))

    def equal(self, terms: Mapping[int, int], value: int) -> None:
        """Post ``sum == value``; definitions only, so it carries no tag."""
        self.rows.append(Row(dict(terms), value, value))

    def fix(self, var: int, value: int) -> None:
        """Narrow one variable to one value."""
        self.lower[var] = self.upper[var] = value

    def tags(self) -> list[Tag]:
        """Return every distinct tag, in the order posted."""
        return list(dict.fromkeys(row.tag for row in self.rows if row.tag is not None))


def copied(model: Model) -> Model:
    """Return a model that stays as it is when variables, rows or costs are added to the other."""
    return replace(
        model,
        lower=list(model.lower),
        upper=list(model.upper),
        names=list(model.names),
        rows=list(model.rows),
        cost=dict(model.cost),
        fine=set(model.fine),
        implied=set(model.implied),
    )


def total(parts: Iterable[Mapping[int, int]]) -> Terms:
    """Return the sum of linear expressions."""
    out: Terms = {}
    for part in parts:
        if out.keys().isdisjoint(part):
            out.update(part)
            continue
        for var, coefficient in part.items():
            out[var] = out.get(var, 0) + coefficient
    if 0 not in out.values():
        return out
    return {var: coefficient for var, coefficient in out.items() if coefficient}


def scaled(terms: Mapping[int, int], factor: int) -> Terms:
    """Return a linear expression times a whole number."""
    return {var: coefficient * factor for var, coefficient in terms.items()}
