"""Entries of a calendar that count as matches and may be none: said, for a person to decide."""

from collections.abc import Sequence

from cli.files.fixtures_entries import RANKS, CalendarEntry, categories, name_of
from cli.files.fixtures_words import says_match
from optimiser.domain.wording import listed

#: Names told one by one.
FEW = 4


def doubts(kept: Sequence[CalendarEntry]) -> list[str]:
    """Return a sentence for each reason to doubt that all of ``kept`` are one side's matches."""
    return [*_several(kept), *_unsaid(kept)]


def _several(kept: Sequence[CalendarEntry]) -> list[str]:
    """Say so where matches are of several calendars or categories."""
    of_each = [_names(entry) for entry in kept]
    named = sorted(set().union(*of_each))
    if len(named) < 2 or all(names == of_each[0] for names in of_each):
        return []
    return [f"these are of {listed(named)}; `--calendar` keeps one calendar or category"]


def _names(entry: CalendarEntry) -> frozenset[str]:
    ranked = (name for name in categories(entry.event) if name.strip().lower() not in RANKS)
    return frozenset(filter(None, (entry.calendar, *ranked)))


def _unsaid(kept: Sequence[CalendarEntry]) -> list[str]:
    """Name those that do not say who plays whom, where most others do."""
    unsaid = [name_of(entry) for entry in kept if not says_match(name_of(entry))]
    if not unsaid or 2 * len(unsaid) >= len(kept):
        return []
    more = f" and {len(unsaid) - FEW} more" if len(unsaid) > FEW else ""
    told = ", ".join(unsaid[:FEW])
    return [f"counted as matches, but not called so: {told}{more}; `--match` keeps what has a text"]
