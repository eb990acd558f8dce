"""Edits in a few words."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from cli.render.clean_text import clean
from cli.render.rule_words import parameter_words, rule_title
from optimiser.domain.edits import Edit, Set
from optimiser.domain.season import Season


def edit_words(edit: Edit) -> str:
    """Return what an edit does."""
    return clean(edit.told(_Telling(page=False)))


def page_words(edit: Edit) -> str:
    """Return what an edit does, with dates that the page writes as its reader does."""
    return clean(edit.told(_Telling(page=True)))


def doubts_of(edits: Sequence[Edit], before: Season, after: Season) -> list[str]:
    """Return what to ask before edits are made, each question once."""
    asked = (clean(words) for edit in edits for words in edit.doubts(before, after))
    return list(dict.fromkeys(asked))


def refused_words(edit: Edit) -> str:
    """Return what an edit is about, before the parameter that is refused is named."""
    return clean(rule_title(edit.rule)) if isinstance(edit, Set) else edit_words(edit)


@dataclass(frozen=True)
class _Telling:
    """How days and rules are called: in plain text, or for the page."""

    page: bool

    def day(self, day: dt.date) -> str:
        return day.isoformat() if self.page else f"{day:%a} {day.day} {day:%b}"

    def rule(self, name: str) -> str:
        return rule_title(name)

    def parameter(self, rule: str, parameter: str, value: Any) -> str:
        return parameter_words(rule, parameter, value)
