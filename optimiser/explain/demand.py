"""A demand: what one rule asks for in one place; the unit in which rules are argued about."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from optimiser.board.model import Model, Row, Tag
from optimiser.domain.breach import Breach
from optimiser.domain.sentence import Sentence
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
    tags
        Those of its rows, without repeats.
    safety
        True if it keeps people safe.
    wish
        True if it is what somebody chose.
    words
        Those of its rule, if it stands for so many rows that no other tell it.
    """

    key: Key
    tags: tuple[Tag, ...]
    safety: bool = False
    wish: bool = False
    words: str = ""

    @property
    def rule(self) -> str:
        """Return the rule's name."""
        return self.key.rule

    @property
    def first(self) -> Tag:
        """Return the tag that stands for all of them."""
        return self.tags[0]

    @property
    def says(self) -> Sentence:
        """Return what it asks for."""
        return self.first.says

    @property
    def unit(self) -> str:
        """Return what it would give way in."""
        return self.first.unit


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
    of = {rule.name: rule for rule in rules}
    tags: dict[Key, list[Tag]] = {}
    for tag in dict.fromkeys(row.tag for row in model.rows if row.tag is not None):
        if tag.price is None:
            tags.setdefault(key_of(tag), []).append(tag)
    return {key: _demand(key, tuple(here), of[key.rule]) for key, here in tags.items()}


def _demand(key: Key, tags: tuple[Tag, ...], rule: Rule) -> Demand:
    words = rule.words() if rule.told_whole else ""
    return Demand(key, tags, rule.keeps_safe(key.part), rule.wish, words)
