"""Who may train on which day, as people entered it: out, limited to a stage, available, away.

A stage is entered with its date by somebody, and stands until somebody enters the next: neither a
date that has passed nor the end of an entry ever moves an athlete on.
"""

import datetime as dt
from collections.abc import Collection, Iterator
from enum import StrEnum
from typing import Self

from pydantic import Field, model_validator

from optimiser.athlete.stages import FREE, OUT, STEP_DAYS
from optimiser.domain.strict import Strict

DAY = dt.timedelta(days=1)


class Status(StrEnum):
    """What an entry says of an athlete."""

    OUT = "out"
    LIMITED = "limited"
    AVAILABLE = "available"
    AWAY = "away"


class AvailabilityEntry(Strict):
    """One dated entry.

    Parameters
    ----------
    first, last
        Days it is meant for; ``last`` ends only an absence (`Status.AWAY`) by itself.
    stage
        Of the way back, 1 to 5; of a limited athlete only.
    tags
        Restrictions of the exercise library that hold as long as the entry does.
    words
        What the medical team says beyond that, printed as it stands.
    """

    athlete: str = Field(min_length=1, max_length=80)
    first: dt.date
    last: dt.date | None = None
    status: Status
    stage: int | None = Field(default=None, ge=0, le=6)
    tags: tuple[str, ...] = ()
    words: str = Field(default="", max_length=200)

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.last is not None and self.last < self.first:
            raise ValueError(
                f"the last day must not come before the first (got {self.first} to {self.last}); "
                "swap them"
            )
        if self.status is Status.LIMITED and not (self.stage and OUT < self.stage < FREE):
            raise ValueError(
                f"a limited athlete must have a stage from 1 to 5 (got {self.stage}); ask the "
                "medical team and enter it; who is with the squad again is available"
            )
        usual = {Status.OUT: OUT, Status.AVAILABLE: FREE}.get(self.status)
        if self.status is not Status.LIMITED and self.stage not in (None, usual):
            raise ValueError(
                f"a stage must belong to the status limited (got {self.status.value} and stage "
                f"{self.stage}); correct one of them"
            )
        if self.stage == 1 and not (self.tags or self.words):
            raise ValueError(
                "limits must name what is hurt at stage 1 (got nothing), as only what is not may "
                "be trained; name the part or write the medical team's words"
            )
        return self

    @property
    def level(self) -> int:
        """Return the stage it puts an athlete on."""
        usual = {Status.OUT: OUT, Status.LIMITED: self.stage or OUT}
        return usual.get(self.status, FREE)


class AthleteHistory(Strict):
    """The entries of one athlete, in the order of their first days."""

    entries: tuple[AvailabilityEntry, ...] = ()

    def entry(self, day: dt.date) -> AvailabilityEntry | None:
        """Return the medical entry that stands on a day: the last one begun."""
        begun = [e for e in self.entries if e.status is not Status.AWAY and e.first <= day]
        return begun[-1] if begun else None

    def stage(self, day: dt.date) -> int:
        """Return the stage on a day; whom nobody entered trains with the squad."""
        found = self.entry(day)
        return FREE if found is None else found.level

    def away(self, day: dt.date) -> bool:
        """Return True if the athlete is elsewhere on a day."""
        return any(
            entry.status is Status.AWAY
            and entry.first <= day
            and (entry.last is None or day <= entry.last)
            for entry in self.entries
        )

    def trains(self, day: dt.date) -> bool:
        """Return True if any work is allowed on a day."""
        return self.stage(day) > OUT and not self.away(day)

    def with_absence(self, first: dt.date | None, last: dt.date | None) -> Self:
        """Return it with the days a squad file says somebody is not there; one side may be open."""
        if first is None and last is None:
            return self
        absence = AvailabilityEntry(
            athlete="-", first=first or dt.date.min, last=last, status=Status.AWAY
        )
        return self.model_copy(update={"entries": (*self.entries, absence)})

    def remarks(self, first: dt.date, last: dt.date) -> Iterator[str]:
        """Yield what to ask the medical team about the entries of a week."""
        medical = [entry for entry in self.entries if entry.status is not Status.AWAY]
        for before, after in zip([None, *medical], medical, strict=False):
            if before is not None and first <= after.first <= last:
                yield from _step(before, after)
        stands = self.entry(last)
        if stands and stands.level < FREE and stands.last and stands.last < last:
            yield (
                f"stage {stands.level} was entered up to {stands.last} and nothing after it: it "
                "stands until the medical team enters the next"
            )


def _step(before: AvailabilityEntry, after: AvailabilityEntry) -> Iterator[str]:
    days = (after.first - before.first).days
    if before.level < after.level and before.level > OUT and days < STEP_DAYS:
        yield (
            f"stage {before.level} lasted {days} day{'' if days == 1 else 's'}; a step usually "
            f"takes {STEP_DAYS} or more: check with the medical team"
        )
    if after.level > before.level + 1 and before.level < FREE - 1:
        yield (
            f"stage {after.level} follows stage {before.level}, with steps left out: check with "
            "the medical team"
        )


class Availability(Strict):
    """The entries of a squad."""

    entries: tuple[AvailabilityEntry, ...] = ()

    def of(self, name: str) -> AthleteHistory:
        """Return the entries of one athlete, whatever the case of the name."""
        own = [entry for entry in self.entries if entry.athlete.casefold() == name.casefold()]
        return AthleteHistory(entries=tuple(sorted(own, key=lambda entry: entry.first)))


def returned(
    monday: dt.date, history: AthleteHistory, gone: Collection[dt.date], days_off: int
) -> dt.date | None:
    """Return the first day of training after the last absence of ``days_off`` days or more.

    None if there was none in the year before, or if it still lasts.

    Parameters
    ----------
    monday
        First day of the week that is asked about.
    gone
        Further days without training: of the squad, or of a squad file.
    """
    back: dt.date | None = None
    off, own = 0, False
    day, last = monday - 366 * DAY, monday + 6 * DAY
    while day <= last:
        if history.trains(day) and day not in gone:
            back = day if off >= days_off and own else back
            off, own = 0, False
        else:
            off, own = off + 1, own or not history.trains(day)
        day += DAY
    return back if off < days_off else None
