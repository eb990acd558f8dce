"""Priorities proposed from the words of a match, for a list that gives none."""

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain

from optimiser.domain.fixture import Fixture, Priority

FRIENDLY = re.compile(
    r"\b(friendly|friendlies|pre-?season|scrimmages?|"
    r"(practice|training|challenge|warm-up) (match|game)|"
    r"freundschaftsspiele?|testspiele?|amical|amistoso|amichevole|oefenwedstrijd)\b",
    re.I,
)
# The whole list of words goes from the first to be looked for to the last.
WORDS = (
    (
        re.compile(
            r"\b(quarter|viertel|achtel|kwart)[- ]?final[es]*\b|\bquarts? de finale\b", re.I
        ),
        Priority.MEDIUM,
    ),
    (re.compile(r"\b\w*final[es]?\b(?! (round|day|fixture))|\bendspiel\b", re.I), Priority.HIGH),
    (
        re.compile(
            r"\b(cup|\w*pokal|coupe|coppa|copa|beker|play-?offs?|knock-?out)\b|\bpokal\w+", re.I
        ),
        Priority.MEDIUM,
    ),
)
#: Proposals of one competition told one by one.
FEW = 4
#: Short forms, in capitals, of the name of a competition.
SHORT = ((re.compile(r"\bQF\b"), Priority.MEDIUM), (re.compile(r"\b[SG]F\b"), Priority.HIGH))


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
    """Return a sentence for each day a priority is proposed for, the highest of it.

    Many of one competition are told in one.
    """
    told: dict[tuple[Priority, str], list[Proposal]] = {}
    for _, item in sorted(best_by_date(found).items()):
        told.setdefault((item.priority, item.words.split(", ")[0]), []).append(item)
    return [line for same in told.values() for line in _lines(same)]


def _lines(same: Sequence[Proposal]) -> list[str]:
    first = same[0]
    if len(same) <= FEW:
        return [
            f"proposed {item.priority}: {item.date:%a} {item.date}, by its words: {item.words}"
            for item in same
        ]
    words = first.words.split(", ")[0]
    span = f"{first.date:%a} {first.date} to {same[-1].date:%a} {same[-1].date}"
    return [f"proposed {first.priority}: {len(same)} matches, {span}, by their words: {words}"]


def best_by_date(found: Sequence[Proposal]) -> dict[dt.date, Proposal]:
    """Return of each day the highest that is proposed for it."""
    return {item.date: item for item in sorted(found, key=_lowest_first)}


def _lowest_first(item: Proposal) -> int:
    return -list(Priority).index(item.priority)


def _priority(fixture: Fixture) -> Priority:
    text = _words(fixture)
    if is_friendly(fixture):
        return Priority.LOW
    short = (priority for words, priority in SHORT if words.search(fixture.competition))
    told = (priority for words, priority in WORDS if words.search(text))
    return next(chain(short, told), Priority.LOW)


def _words(fixture: Fixture) -> str:
    both = (fixture.competition, fixture.opponent)
    return ", ".join(" ".join(words.split()) for words in both if words)
