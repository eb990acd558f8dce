"""A scenario while edits are made to it, one after the other."""

import copy
import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, NoReturn, Protocol

from optimiser.domain.fixture import Break, Fixture
from optimiser.domain.scenario import Scenario
from optimiser.domain.season import Season
from optimiser.domain.setup_error import SetupError

#: What is the same for all matches of a day.
ALL_ALIKE = {"date", "priority", "travel_hours", "target", "weight"}


class EditError(SetupError):
    """An edit that cannot be made; ``edit`` is its index from 0."""

    def __init__(self, edit: int, where: str, must: str, got: str, do: str) -> None:
        super().__init__(where, must, got, do)
        self.edit = edit


class Telling(Protocol):
    """How days, rules and their parameters are called where edits are told."""

    def day(self, day: dt.date) -> str:
        """Return a day as its reader writes it."""

    def rule(self, name: str) -> str:
        """Return what people call a rule."""

    def parameter(self, rule: str, parameter: str, value: Any) -> str:
        """Return what a rule's parameter is set to, as a sentence."""


@dataclass
class MatchDay:
    """A day with matches, as it was and is, and of several each as it was listed."""

    was: Fixture | None
    now: Fixture | None
    listed: tuple[Fixture, ...] = ()

    def change(self, **values: Any) -> None:
        """Change what is said of the day; what names one match takes the place of several."""
        assert self.now is not None
        self.now = self.now.model_copy(update=values)
        own = not values.keys() <= ALL_ALIKE
        self.listed = () if own else tuple(each.model_copy(update=values) for each in self.listed)

    @property
    def matches(self) -> tuple[Fixture, ...]:
        """Return the matches of the day."""
        return () if self.now is None else self.listed or (self.now,)


@dataclass
class ScenarioDraft:
    """The scenario while edits are made.

    Parameters
    ----------
    defaults
        Usual parameters by rule, so that one entry of a table can be set on its own.
    index
        Of the edit that is made, from 0.
    """

    scenario: Scenario
    season: Season
    defaults: Mapping[str, Mapping[str, Any]]
    index: int = 0
    entries: list[MatchDay] = field(init=False)
    breaks: list[Break] = field(init=False)
    rules: dict[str, dict[str, Any]] = field(init=False)

    def __post_init__(self) -> None:
        several = {match.date for match in self.season.listed}
        self.entries = [
            MatchDay(fixture, fixture, self.season.played_on(fixture.date))
            if fixture.date in several
            else MatchDay(fixture, fixture)
            for fixture in self.season.fixtures
        ]
        self.breaks = list(self.scenario.breaks)
        self.rules = copy.deepcopy(self.scenario.rules)

    def at(self, day: dt.date) -> MatchDay:
        """Return the day with a fixture.

        Raises
        ------
        EditError
            If there is none on that day.
        """
        found = [e for e in self.entries if e.now is not None and e.now.date == day]
        if found:
            return found[0]
        days = sorted(entry.now.date for entry in self.entries if entry.now is not None)
        near = min(days, key=lambda other: abs((other - day).days), default=None)
        do = f"the nearest one is on {near}" if near else "add one first"
        got = f"{day}, on which there is none"
        raise EditError(self.index, "date", "must be the day of a fixture", got, do)

    def check_free(self, where: str, day: dt.date) -> None:
        """Refuse a day outside the season, or with a fixture."""
        first, last = self.scenario.first_monday, self.scenario.last_day
        if not first <= day <= last:
            do = "correct it, or lengthen the season in the scenario"
            self.refuse(where, f"must lie in the season, {first} to {last}", str(day), do)
        taken = [e.now for e in self.entries if e.now is not None and e.now.date == day]
        if taken:
            got = f"{day}, on which {taken[0].name} is played"
            self.refuse(where, "must be a day without a fixture", got, "move or drop that first")

    def check_touches(self, first: dt.date, last: dt.date) -> None:
        """Refuse days of which none lies in the season."""
        begin, end = self.scenario.first_monday, self.scenario.last_day
        if last < begin or first > end:
            got = f"{first} to {last}"
            self.refuse("first", f"must touch the season, {begin} to {end}", got, "correct it")

    def refuse(self, where: str, must: str, got: str, do: str) -> NoReturn:
        """Raise that the edit under way cannot be made."""
        raise EditError(self.index, where, must, got, do)
