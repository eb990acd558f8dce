"""Breaks of any kind, added and taken out."""

from collections.abc import Iterable
from typing import Literal

from pydantic import Field

from optimiser.domain.edits.closed_days import DaysEdit
from optimiser.domain.edits.odd_days import matches_while_closed
from optimiser.domain.edits.work import ScenarioDraft, Telling
from optimiser.domain.fixture import Break, BreakKind
from optimiser.domain.season import Season


class BreakEdit(DaysEdit):
    """An edit of the break of some kind that lasts from ``first`` to ``last``."""

    kind: BreakKind

    def others(self, work: ScenarioDraft) -> list[Break]:
        """Return the breaks but this one."""
        here = (self.kind, self.first, self.last)
        return [item for item in work.breaks if (item.kind, item.first, item.last) != here]

    def named(self, telling: Telling) -> str:
        """Return the break in words."""
        return f"{self.kind.capitalize()} {self.span(telling)}"


class AddBreak(BreakEdit):
    """Add a break of any kind; see :class:`~optimiser.domain.fixture.Break`."""

    edit: Literal["add_break"] = "add_break"
    note: str = Field(default="", max_length=200)
    sessions: int | None = Field(default=None, ge=0, le=10)

    def make(self, work: ScenarioDraft) -> None:
        """Add it, if there is none like it."""
        work.check_touches(self.first, self.last)
        if len(self.others(work)) < len(work.breaks):
            got = f"{self.kind} {self.first} to {self.last}, which is there"
            work.refuse("first", "must be a new break", got, "take that one out first")
        work.breaks.append(Break(**self.model_dump(exclude={"edit"})))

    def told(self, telling: Telling) -> str:
        """Say which."""
        note = f" ({self.note})" if self.note else ""
        return f"{self.named(telling)} marked{note}"

    def doubts(self, before: Season, after: Season) -> Iterable[str]:
        """Ask about matches on days of rest."""
        return matches_while_closed(after, self.first, self.last) if self.kind == "rest" else ()


class DropBreak(BreakEdit):
    """Take out the break of some kind that lasts from ``first`` to ``last``."""

    edit: Literal["drop_break"] = "drop_break"

    def make(self, work: ScenarioDraft) -> None:
        """Take it out, if it is there."""
        kept = self.others(work)
        if len(kept) == len(work.breaks):
            got = f"{self.kind} {self.first} to {self.last}"
            do = "give the kind, the first and the last day of one"
            work.refuse("first", "must be a break of the season", got, do)
        work.breaks = kept

    def told(self, telling: Telling) -> str:
        """Say which."""
        return f"{self.named(telling)} taken out"
