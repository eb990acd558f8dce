"""All a report tells, worked out once for every kind of file."""

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from cli.days import NO_STARTS, Starts, week_maker
from cli.files.own_work import read_kit, read_library
from cli.files.scenario_file import Loaded
from cli.render.given_up import given_up_sentences
from cli.render.pictures.text import drawable
from cli.render.plain_verdict import verdict_sentences
from optimiser.athlete.card import Kit
from optimiser.athlete.library import Library
from optimiser.days.week_plan import WeekPlan
from optimiser.domain.document import PlanDocument, SessionDayPart
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season, Week
from optimiser.explain.limits import Limit, limits
from optimiser.rule import Rule

if TYPE_CHECKING:  # the library that draws is loaded only where something is drawn
    from matplotlib.figure import Figure

#: Signs on a line of a sheet.
SHEET_LINE = 150


@dataclass(frozen=True)
class Note:
    """Something worked out about a plan elsewhere, shown as a table with a line above it."""

    title: str
    about: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Compared:
    """The plan as it was before, and what to call it."""

    before: PlanDocument
    name: str


@dataclass(frozen=True)
class Report:
    """A plan with its document, its days and what limits it.

    Parameters
    ----------
    weeks
        Every week day by day, in order.
    notes
        Why choices are as they are, and what rules cost, where somebody has asked.
    """

    loaded: Loaded
    rules: tuple[Rule, ...]
    document: PlanDocument
    plan: Plan
    weeks: tuple[WeekPlan, ...]
    notes: tuple[Note, ...] = ()
    compared: Compared | None = None

    @property
    def season(self) -> Season:
        """Return the season."""
        return self.loaded.season

    @cached_property
    def limits(self) -> list[Limit]:
        """Return the worst weeks and what stops more work there."""
        return limits(self.season, self.plan, self.rules)

    @cached_property
    def verdict(self) -> list[str]:
        """Return whether the plan is any good, a sentence each; nothing of a good one."""
        return [*given_up_sentences(self.document), *verdict_sentences(self.document, self.limits)]

    @property
    def word(self) -> str:
        """Return them for a sheet, in three lines at most."""
        lines = textwrap.wrap(" ".join(self.verdict), SHEET_LINE, max_lines=3, placeholder=" ...")
        return "\n".join(drawable(line, SHEET_LINE) for line in lines)

    @cached_property
    def library(self) -> Library:
        """Return the exercises, with the scenario's own."""
        return read_library(self.loaded)

    @cached_property
    def kit(self) -> Kit:
        """Return what there is to train and to load with."""
        return read_kit(self.loaded)

    @cached_property
    def chart(self) -> "Figure":
        """Return the season chart, for print."""
        from cli.render.pictures.season import season_chart

        return season_chart(self.document, self.season, self.rules, word=self.word)

    @property
    def fixtures(self) -> list[tuple[Week, Fixture]]:
        """Return every match by date as it was listed, with its week."""
        return [
            (week, match)
            for week in self.season.weeks
            for fixture in week.fixtures
            for match in self.season.played_on(fixture.date)
        ]


def make_report(
    loaded: Loaded,
    rules: Sequence[Rule],
    plan: Plan,
    document: PlanDocument,
    notes: Sequence[Note] = (),
    compared: Compared | None = None,
    written: Sequence[Sequence[SessionDayPart]] = (),
    starts: Starts = NO_STARTS,
) -> Report:
    """Return the report of a plan and of its document.

    Parameters
    ----------
    written
        By week the days of the plan's sessions, where its file gives them.
    starts
        When every field and gym session starts, where that is asked for.
    """
    maker = week_maker(loaded, rules, starts)
    days = written or [()] * len(loaded.season.weeks)
    weeks = tuple(maker.week(plan, week.index, days[week.index]) for week in loaded.season.weeks)
    return Report(loaded, tuple(rules), document, plan, weeks, tuple(notes), compared)
