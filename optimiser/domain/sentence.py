"""A sentence whose facts stand beside its words, so that nobody has to read them back out."""

import string
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from optimiser.domain.week_number import number_of
from optimiser.domain.wording import counted, listed, weeks_listed

#: Verbs whose plural is not the word without its last letter.
PLURALS = {"is": "are", "has": "have", "does": "do", "goes": "go", "may": "may"}


class Span(NamedTuple):
    """Weeks in a row (from 0), told beside the week that a sentence is about."""

    first: int
    last: int

    def __str__(self) -> str:
        """Return ``week 3`` or ``weeks 3-4``."""
        return weeks_listed((self.first + 1, *range(self.first + 2, self.last + 2)))


Fact = int | float | str | Span


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence about one place.

    Parameters
    ----------
    form
        The words, with the names of facts in braces. ``{week}`` and ``{quality}`` stand for the
        place, a verb behind them follows (``{quality:is}``, ``{week:has}``); a whole number is
        told with the word behind it (``{limit:session}`` is 1 session or 2 sessions).
    week
        From 0, or None.
    quality
        Its name, or "".
    facts
        By name.
    """

    form: str = ""
    week: int | None = None
    quality: str = ""
    facts: tuple[tuple[str, Fact], ...] = ()

    def __str__(self) -> str:
        """Return the sentence."""
        return self.told(() if self.week is None else (self.week,), (self.quality,))

    def told(self, weeks: Sequence[int], qualities: Sequence[str]) -> str:
        """Return the sentence about several weeks (from 0) and one quality or more (by name)."""
        numbers = [number_of(week) for week in weeks]
        place = {
            "week": _Several(weeks_listed(numbers) if numbers else "", len(numbers)),
            "quality": _Several(listed(self._cased(qualities)), len(qualities)),
        }
        return _TELLER.vformat(self.form, (), {**dict(self.facts), **place})

    def _cased(self, names: Sequence[str]) -> Sequence[str]:
        """Return names small, but for one that begins the sentence."""
        small = [name.lower() for name in names]
        return [names[0], *small[1:]] if self.form.startswith("{quality") else small

    @property
    def alike(self) -> Hashable:
        """Return what sentences share that differ in their weeks and qualities alone."""
        return self.form, tuple(fact for fact in self.facts if not isinstance(fact[1], Span))

    @property
    def chains(self) -> bool:
        """Tell whether it can be told of several weeks at once."""
        moving = any(isinstance(value, Span) for _, value in self.facts)
        return "{week" in self.form and not moving

    def about(self, **facts: Fact) -> "Sentence":
        """Return the sentence with more facts."""
        return replace(self, facts=tuple({**dict(self.facts), **facts}.items()))

    def then(self, form: str, **facts: Fact) -> "Sentence":
        """Return the sentence with more words behind it."""
        return replace(self.about(**facts), form=f"{self.form}{form}")

    def put(self, form: str) -> "Sentence":
        """Return other words for the same place and facts, without facts they do not name."""
        facts = tuple(
            (name, value)
            for name, value in self.facts
            if f"{{{name}}}" in form or f"{{{name}:" in form
        )
        return replace(self, form=form, facts=facts)


#: Of what is never told.
UNSAID = Sentence()


class _Several(NamedTuple):
    """Weeks or qualities in words, and how many they are."""

    words: str
    many: int

    def with_verb(self, verb: str) -> str:
        """Return them, followed by a verb that agrees with them."""
        return f"{self.words} {_verb(verb, self.many)}" if verb else self.words


def _verb(verb: str, many: int) -> str:
    return verb if many == 1 else PLURALS.get(verb, verb[:-1])


class _Teller(string.Formatter):
    """Puts facts into words."""

    def format_field(self, value: Any, format_spec: str) -> str:
        if isinstance(value, _Several):
            return value.with_verb(format_spec)
        if isinstance(value, int) and format_spec[:1].isalpha():
            return counted(value, format_spec)
        return str(value) if isinstance(value, Span) else format(value, format_spec)


_TELLER = _Teller()
