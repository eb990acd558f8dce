"""Edits made to a scenario and its fixtures, one after the other."""

import copy
import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, NoReturn

from optimiser.domain.changes import (
    Add,
    AddBreak,
    Close,
    Describe,
    Drop,
    DropBreak,
    Edit,
    Move,
    Open,
    PinChoice,
    Rank,
    RuleOff,
    RuleOn,
    Set,
)
from optimiser.domain.fixture import Break, Fixture
from optimiser.domain.scenario import Scenario
from optimiser.domain.season import Season
from optimiser.domain.setup_error import SetupError
from optimiser.setup.build import build_season

ONE_DAY = dt.timedelta(days=1)
#: What is the same for all matches of a day.
ALL_ALIKE = {"date", "priority", "travel_hours", "target", "weight"}
#: Breaks that keep training away.
KEEPS_AWAY = ("rest", "exams")


class EditError(SetupError):
    """An edit that cannot be made; ``edit`` is its index from 0."""

    def __init__(self, edit: int, where: str, must: str, got: str, do: str) -> None:
        super().__init__(where, must, got, do)
        self.edit = edit


@dataclass(frozen=True)
class Changed:
    """A scenario after edits.

    Parameters
    ----------
    pairs
        Every fixture as it was and as it is; None where it was not there, or is no more.
    """

    scenario: Scenario
    season: Season
    pairs: tuple[tuple[Fixture | None, Fixture | None], ...]


def apply_edits(
    scenario: Scenario,
    season: Season,
    edits: Sequence[Edit],
    defaults: Mapping[str, Mapping[str, Any]] | None = None,
) -> Changed:
    """Return the scenario after ``edits``; its fixtures then all stand in the scenario itself.

    Parameters
    ----------
    defaults
        Usual parameters by rule, so that one entry of a table can be set on its own.

    Raises
    ------
    EditError
        If an edit cannot be made: there is no such fixture, the day is taken or outside.
    """
    work = _Work(scenario, season, defaults or {})
    for index, edit in enumerate(edits):
        work.index = index
        work.make(edit)
    return work.done()


@dataclass
class _Entry:
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
class _Work:
    """The scenario while edits are made."""

    scenario: Scenario
    season: Season
    defaults: Mapping[str, Mapping[str, Any]]
    index: int = 0
    entries: list[_Entry] = field(init=False)
    breaks: list[Break] = field(init=False)
    rules: dict[str, dict[str, Any]] = field(init=False)

    def __post_init__(self) -> None:
        several = {match.date for match in self.season.listed}
        self.entries = [
            _Entry(fixture, fixture, self.season.played_on(fixture.date))
            if fixture.date in several
            else _Entry(fixture, fixture)
            for fixture in self.season.fixtures
        ]
        self.breaks = list(self.scenario.breaks)
        self.rules = copy.deepcopy(self.scenario.rules)

    def make(self, edit: Edit) -> None:
        match edit:
            case Move():
                self._move(edit)
            case Add():
                self._free("date", edit.date)
                self.entries.append(_Entry(None, Fixture(**edit.model_dump(exclude={"edit"}))))
            case Drop():
                self._at(edit.date).now = None
                if not any(entry.now for entry in self.entries):
                    self._refuse("date", "must leave a fixture", "the last one", "keep one")
            case Rank():
                self._update(self._at(edit.date), priority=edit.priority)
            case Describe():
                told = edit.model_dump(exclude={"edit", "date"}, exclude_none=True)
                self._update(self._at(edit.date), **told)
            case Close():
                self._touch(edit)
                self.breaks.append(Break(kind="rest", **edit.model_dump(exclude={"edit"})))
            case Open():
                self._open(edit)
            case AddBreak():
                self._add_break(edit)
            case DropBreak():
                self._drop_break(edit)
            case _:
                self._rule(edit)

    def done(self) -> Changed:
        fixtures = tuple(match for entry in self.entries for match in entry.matches)
        changed = self.scenario.model_copy(
            update={
                "fixtures": fixtures,
                "fixtures_file": None,
                "priorities": {},
                "breaks": tuple(self.breaks),
                "rules": self.rules,
            }
        )
        pairs = tuple((entry.was, entry.now) for entry in self.entries)
        return Changed(changed, build_season(changed, fixtures), pairs)

    # --- the calendar ---------------------------------------------------------------------

    def _move(self, edit: Move) -> None:
        entry = self._at(edit.date)
        if edit.to != edit.date:
            self._free("to", edit.to)
        update: dict[str, Any] = {"date": edit.to}
        if edit.kickoff is not None:
            update["kickoff"] = edit.kickoff
        self._update(entry, **update)

    def _update(self, entry: _Entry, **values: Any) -> None:
        entry.change(**values)

    def _at(self, day: dt.date) -> _Entry:
        found = [e for e in self.entries if e.now is not None and e.now.date == day]
        if found:
            return found[0]
        days = sorted(entry.now.date for entry in self.entries if entry.now is not None)
        near = min(days, key=lambda other: abs((other - day).days), default=None)
        do = f"the nearest one is on {near}" if near else "add one first"
        got = f"{day}, on which there is none"
        raise EditError(self.index, "date", "must be the day of a fixture", got, do)

    def _free(self, where: str, day: dt.date) -> None:
        first, last = self.scenario.first_monday, self.scenario.last_day
        if not first <= day <= last:
            do = "correct it, or lengthen the season in the scenario"
            self._refuse(where, f"must lie in the season, {first} to {last}", str(day), do)
        taken = [e.now for e in self.entries if e.now is not None and e.now.date == day]
        if taken:
            got = f"{day}, on which {taken[0].name} is played"
            self._refuse(where, "must be a day without a fixture", got, "move or drop that first")

    def _add_break(self, edit: AddBreak) -> None:
        self._touch(edit)
        if len(self._without_break(edit)) < len(self.breaks):
            got = f"{edit.kind} {edit.first} to {edit.last}, which is there"
            self._refuse("first", "must be a new break", got, "take that one out first")
        self.breaks.append(Break(**edit.model_dump(exclude={"edit"})))

    def _without_break(self, edit: AddBreak | DropBreak) -> list[Break]:
        there = (edit.kind, edit.first, edit.last)
        return [item for item in self.breaks if (item.kind, item.first, item.last) != there]

    def _drop_break(self, edit: DropBreak) -> None:
        kept = self._without_break(edit)
        if len(kept) == len(self.breaks):
            got = f"{edit.kind} {edit.first} to {edit.last}"
            do = "give the kind, the first and the last day of one"
            self._refuse("first", "must be a break of the season", got, do)
        self.breaks = kept

    def _touch(self, edit: Close | Open | AddBreak) -> None:
        first, last = self.scenario.first_monday, self.scenario.last_day
        if edit.last < first or edit.first > last:
            got = f"{edit.first} to {edit.last}"
            self._refuse("first", f"must touch the season, {first} to {last}", got, "correct it")

    def _open(self, edit: Open) -> None:
        self._touch(edit)
        kept: list[Break] = []
        for item in self.breaks:
            kept += _without(item, edit) if item.kind in KEEPS_AWAY else [item]
        if kept == self.breaks:
            got = f"{edit.first} to {edit.last}"
            self._refuse("first", "must touch a break of rest or exams", got, "correct the days")
        first, last = self.scenario.first_monday, self.scenario.last_day
        self.breaks = [item for item in kept if item.last >= first and item.first <= last]

    # --- rules ----------------------------------------------------------------------------

    def _rule(self, edit: Set | RuleOff | RuleOn | PinChoice) -> None:
        match edit:
            case Set():
                self._set(edit)
            case RuleOff():
                self.rules.setdefault(edit.rule, {})["use"] = False
            case RuleOn():
                table = self.rules.setdefault(edit.rule, {})
                table.pop("use", None)
                table.update(copy.deepcopy(edit.parameters))
            case PinChoice():
                choice = edit.model_dump(exclude={"edit"}, exclude_none=True)
                pin = self.rules.setdefault("pin", {})
                pin["choices"] = [*pin.get("choices", ()), choice]

    def _set(self, edit: Set) -> None:
        *path, last = edit.parameter.split(".")
        table = self.rules.setdefault(edit.rule, {})
        usual: Any = self.defaults.get(edit.rule, {})
        for part in path:
            usual = usual.get(part, {}) if isinstance(usual, Mapping) else {}
            inner = table.setdefault(part, copy.deepcopy(usual))
            if not isinstance(inner, dict):
                do = "name the parameter alone"
                self._refuse("parameter", "must lead through tables", edit.parameter, do)
            table = inner
        table[last] = edit.value

    def _refuse(self, where: str, must: str, got: str, do: str) -> NoReturn:
        raise EditError(self.index, where, must, got, do)


def _without(item: Break, gap: Open) -> list[Break]:
    """Return what is left of a break outside of ``gap``: nothing, one part or two."""
    if gap.last < item.first or gap.first > item.last:
        return [item]
    parts = [(item.first, gap.first - ONE_DAY), (gap.last + ONE_DAY, item.last)]
    return [
        item.model_copy(update={"first": first, "last": last})
        for first, last in parts
        if first <= last
    ]
