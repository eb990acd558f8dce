"""A changed season written back into its own files: layout, columns and comments stay."""

import os
import tempfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from cli.files.changed_tables import all_rules, fixture_row, put_rows, rule_by_rule, short
from cli.files.changes_file import usual_parameters
from cli.files.errors import InputError
from cli.files.fixtures_csv import find_fixtures_csv
from cli.files.fixtures_found import ListFacts
from cli.files.mend import BESIDE
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded, digest_of, load_scenario
from cli.season.fixture_rows import FixtureTable, Pair
from optimiser.change.apply import Changed, apply_edits
from optimiser.domain.edits import Edit
from optimiser.domain.fixture import Fixture
from optimiser.domain.scenario import Scenario

#: Name of a list that takes the place of one that cannot be edited, such as a calendar feed.
OWN_LIST = "fixtures.csv"
OTHER_LIST = "matches.csv"
HEAD = "date,kickoff,opponent,competition,venue,priority,minutes,travel_hours\n"
WriteRules = Callable[[Any, Scenario, Scenario], None]


@dataclass(frozen=True)
class Rewritten:
    """The files of a changed season.

    Parameters
    ----------
    files
        What changed: bytes by name, as seen from the scenario's folder.
    loaded
        The season as those files say it.
    notes
        What a person must know of how it was written.
    """

    files: dict[str, bytes]
    loaded: Loaded
    notes: tuple[str, ...] = ()


def rewritten(loaded: Loaded, edits: Sequence[Edit], out: Path | None = None) -> Rewritten:
    """Return the files of a season after edits.

    Parameters
    ----------
    out
        Where the scenario is to be written, if not in its own place; a changed fixture list is
        then written beside it.

    Raises
    ------
    InputError
        If a file is laid out so that it would not read back as the changed season.
    """
    changed = apply_edits(loaded.scenario, loaded.season, edits, usual_parameters())
    goal = digest_of(changed.scenario, changed.season)
    place = out or loaded.path
    for rules in (rule_by_rule, all_rules):
        made = _tried(_Writer(loaded, changed, place), rules)
        if made is not None:
            there = _read_back(made.files, place)
            if there is not None and there.digest == goal:
                return Rewritten(made.files, there, tuple(made.notes))
    must = "must be laid out so that changes can be written into it"
    raise InputError(loaded.path, "", must, "another layout", "make the changes by hand")


def _tried(writer: "_Writer", rules: WriteRules) -> "_Writer | None":
    try:
        writer.write(rules)
    except TOMLKitError:
        return None
    return writer


class _Writer:
    """Writes a changed season into the texts it was read from."""

    def __init__(self, loaded: Loaded, changed: Changed, out: Path) -> None:
        self.loaded, self.changed, self.out = loaded, changed, out
        self.moved = out.resolve() != loaded.path.resolve()
        self.files: dict[str, bytes] = {}
        self.notes: list[str] = []
        #: Name of the list that takes the place of one that cannot be edited.
        self.own = ""
        self.document: Any = tomlkit.parse(read_text(loaded.path))

    def write(self, rules: WriteRules) -> None:
        before, now = self.loaded.scenario, self.changed.scenario
        pairs = [(was, new) for was, new in self.changed.pairs if was != new]
        if pairs:
            self._fixtures(pairs)
        if now.breaks != before.breaks:
            put_rows(self.document, "breaks", [short(item.model_dump()) for item in now.breaks])
        if now.rules != before.rules:
            rules(self.document, before, now)
        if self.moved:
            self._point_back()
        self.files[self.out.name] = tomlkit.dumps(self.document).encode("utf-8")

    def _point_back(self) -> None:
        """Let the files it names be found from where it is written."""
        here, there = self.loaded.path.resolve().parent, self.out.resolve().parent
        for key in BESIDE:
            named = self.document.get(key)
            if named is not None and str(named) not in self.files and here != there:
                self.document[key] = Path(os.path.relpath(here / str(named), there)).as_posix()

    def _fixtures(self, pairs: Sequence[Pair]) -> None:
        listed, inline = self.loaded.scenario.fixtures_file, self.loaded.scenario.fixtures
        table = self._table(listed) if listed else None
        here = {fixture.date for fixture in inline}
        own = [pair for pair in pairs if pair[0] is not None and pair[0].date in here]
        own += [pair for pair in pairs if pair[0] is None and table is None]
        if own:
            self._inline(own)
        if table is not None and listed:
            self._listed(table, [pair for pair in pairs if pair not in own])
            self._put(table, Path(listed))
        self._priorities(pairs, in_table=table is not None and "priority" in table.columns)

    def _table(self, listed: str) -> FixtureTable:
        """Return the list as a table to change; one that is no CSV is written as one first."""
        path = self.loaded.path.parent / listed
        if path.suffix.lower() == ".csv" and not find_fixtures_csv(path, ListFacts()).apart:
            return FixtureTable(path)
        self.own = OTHER_LIST if Path(listed).name == OWN_LIST else OWN_LIST
        self.notes.append(f"{listed} cannot be edited here, so its matches now stand in {self.own}")
        own = {fixture.date for fixture in self.loaded.scenario.fixtures}
        season = self.loaded.season
        rows = [each for f in season.fixtures if f.date not in own
                for each in season.played_on(f.date)]  # fmt: skip
        self.document["fixtures_file"] = self.own
        with tempfile.TemporaryDirectory() as folder:
            made = Path(folder) / OWN_LIST
            made.write_text(HEAD, encoding="utf-8")
            table = FixtureTable(made)
        for fixture in rows:
            table.add(fixture)
        with tempfile.TemporaryDirectory() as folder:
            made = Path(folder) / OWN_LIST
            made.write_bytes(table.made())
            return FixtureTable(made)

    def _put(self, table: FixtureTable, listed: Path) -> None:
        """Write the list: in its place, or beside a new scenario as a list of its own."""
        name = str(self.document["fixtures_file"])
        if self.own:
            self.files[self.own] = table.made()
        elif self.moved:
            beside = f"{self.out.stem}_{listed.name}"
            self.document["fixtures_file"] = beside
            self.files[beside] = table.made()
        else:
            self.files[name] = table.made()

    def _listed(self, table: FixtureTable, pairs: Sequence[Pair]) -> None:
        for was, now in pairs:
            if was is None and now is not None:
                table.add(now)
            elif was is not None and now is None:
                table.drop(was)
            elif was is not None and now is not None:
                table.change(was, now)

    def _inline(self, pairs: Sequence[Pair]) -> None:
        """Change fixtures that stand in the scenario itself; those of one day go together."""
        changes = {was.date: (was, now) for was, now in pairs if was is not None}
        rows: list[Fixture | None] = [
            _changed_row(row, *changes[row.date]) if row.date in changes else row
            for row in self.loaded.scenario.fixtures
        ]
        rows += [now for was, now in pairs if was is None]
        tables = self.document.get("fixtures")
        if not isinstance(tables, tomlkit.items.AoT) or any(row is None for row in rows):
            put_rows(self.document, "fixtures", [fixture_row(row) for row in rows if row])
            return
        for number, row in enumerate(rows):
            assert row is not None
            if number >= len(tables):
                tables.append(tomlkit.item(fixture_row(row)))
            elif row != self.loaded.scenario.fixtures[number]:
                tables[number].update(fixture_row(row))

    def _priorities(self, pairs: Sequence[Pair], *, in_table: bool) -> None:
        """Carry priorities that the scenario gives by date over to the new dates."""
        given = self.loaded.scenario.priorities
        inline = {fixture.date for fixture in self.loaded.scenario.fixtures}
        table = self.document.get("priorities")
        wanted = {}
        for was, now in pairs:
            old = was.date if was else None
            if old in given and table is not None:
                key = next(key for key in table if str(key) == str(old))
                table.remove(key)
            if now is None:
                continue
            new_inline = was is None and not self.document.get("fixtures_file")
            lists = in_table or old in inline or new_inline
            plain = was.priority if was and old not in given else "low"
            if old in given or (not lists and now.priority != plain):
                wanted[str(now.date)] = now.priority.value
        if wanted:
            if table is None:
                self.document["priorities"] = table = tomlkit.table()
            table.update(wanted)


def _changed_row(row: Fixture, was: Fixture, now: Fixture | None) -> Fixture | None:
    """Return one fixture of the scenario with what is different about that day's."""
    if now is None:
        return None
    fields = (name for name in Fixture.model_fields if getattr(was, name) != getattr(now, name))
    return row.model_copy(update={name: getattr(now, name) for name in fields})


def _read_back(files: Mapping[str, bytes], out: Path) -> Loaded | None:
    """Return the season the files say, read as any command would read them; None if they do not."""
    document: Any = tomlkit.parse(files[out.name].decode("utf-8"))
    listed = document.get("fixtures_file")
    with tempfile.TemporaryDirectory() as folder:
        if listed:
            alone = Path(str(listed)).name
            data = files.get(str(listed)) or (out.parent / str(listed)).read_bytes()
            (Path(folder) / alone).write_bytes(data)
            document["fixtures_file"] = alone
        try:
            found = load_scenario(tomlkit.dumps(document), Path(folder) / out.name)
        except InputError:
            return None
    return replace(found, path=out)
