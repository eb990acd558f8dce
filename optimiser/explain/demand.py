"""A demand: what one rule asks for in one place; the unit in which rules are argued about."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from optimiser.board.model import Model, Row, Tag
from optimiser.domain.breach import Breach
from optimiser.rule import Rule


class Key(NamedTuple):
    """Name of a demand: the rule, the week (index from 0), the quality's key and the part."""

    rule: str
    week: int | None
    quality: str | None
    part: str


@dataclass(frozen=True)
class Demand:
    """What one rule asks for in one place.

    Parameters
    ----------
    says
        The sentences of its rows, without repeats.
    unit
        What it would give way in.
    safety
        True if it keeps people safe.
    """

    key: Key
    says: tuple[str, ...]
    unit: str
    safety: bool = False

    @property
    def rule(self) -> str:
        """Return the rule's name."""
        return self.key.rule


Demands = Mapping[Key, Demand]


def key_of(tag: Tag) -> Key:
    """Return the demand that a tag belongs to; several tags may be one demand."""
    return Key(tag.rule, tag.week, tag.quality, tag.part)


def breach_key(breach: Breach) -> Key:
    """Return the demand that a breach is one of."""
    return Key(breach.rule, breach.week, breach.quality, breach.part)


def row_key(row: Row) -> Key | None:
    """Return the demand of a row that must hold; None for a definition."""
    return None if row.tag is None else key_of(row.tag)


def is_argued(row: Row) -> bool:
    """Tell whether a row is up for argument: it has a rule, and no price that buys it off."""
    return row.tag is not None and row.tag.price is None


def demands_of(model: Model, rules: Iterable[Rule]) -> dict[Key, Demand]:
    """Return every demand of rules that must hold, in the order posted."""
    safe = {rule.name for rule in rules if rule.safety}
    says: dict[Key, dict[str, None]] = {}
    units: dict[Key, str] = {}
    for tag in dict.fromkeys(row.tag for row in model.rows if row.tag is not None):
        if tag.price is None:
            says.setdefault(key_of(tag), {})[tag.says] = None
            units.setdefault(key_of(tag), tag.unit)
    return {
        key: Demand(key, tuple(said), units[key], key.rule in safe) for key, said in says.items()
    }
