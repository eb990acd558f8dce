"""Priorities proposed from the words of a match, for a list that gives none."""

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.domain.fixture import Fixture, Priority

FRIENDLY = re.compile(
    r"\b(friendly|friendlies|pre-?season|scrimmages?|(practice|training) (match|game))\b", re.I
)
# The whole list of words goes from the first to be looked for to the last.
WORDS = (
    (re.compile(r"\bquarter[- ]?finals?\b", re.I), Priority.MEDIUM),
    (re.compile(r"\bsemi[- ]?finals?\b|\bfinals?\b(?! (round|day|fixture))", re.I), Priority.HIGH),
    (re.compile(r"\b(cup|play-?offs?|knock-?out)\b", re.I), Priority.MEDIUM),
)


@dataclass(frozen=True)
class Proposal:
    """A priority and the words it was read from."""

    date: dt.date
    priority: Priority
    words: str


def is_friendly(fixture: Fixture) -> bool:
    """Return whether the words of a match say that nothing hangs on it."""
    low = fixture.priority is Priority.LOW
    return low and bool(FRIENDLY.search(_words(fixture)))


def proposals(fixtures: Sequence[Fixture]) -> list[Proposal]:
    """Return a priority above low for each match whose words ask for one, in order of date."""
    found = [
        Proposal(fixture.date, priority, _words(fixture))
        for fixture in fixtures
        if (priority := _priority(fixture)) is not Priority.LOW
    ]
    return sorted(found, key=lambda proposal: proposal.date)


def proposed_words(found: Sequence[Proposal]) -> list[str]:
    """Return a sentence a proposal."""
    return [
        f"proposed: {item.date} {item.priority}, for its words are {item.words}" for item in found
    ]


def _priority(fixture: Fixture) -> Priority:
    text = _words(fixture)
    if is_friendly(fixture):
        return Priority.LOW
    return next((priority for words, priority in WORDS if words.search(text)), Priority.LOW)


def _words(fixture: Fixture) -> str:
    both = (fixture.competition, fixture.opponent)
    return ", ".join(" ".join(words.split()) for words in both if words)
