"""A changed season written back into its scenario file; comments and layout stay."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from cli.files.changes_file import ChangedSeason
from cli.files.errors import InputError
from cli.files.scenario_file import Loaded, load_scenario
from optimiser.domain.scenario import Scenario

WriteRules = Callable[[Any, Scenario, Scenario], None]


def saved_text(text: str, before: Loaded, after: ChangedSeason) -> str:
    """Return the scenario ``text`` with what was changed in it.

    Fixtures that were changed then all stand in the scenario itself, and its fixtures file is no
    longer named.

    Raises
    ------
    InputError
        If the file is laid out so that it would not read back as the changed season.
    """
    for rules in (_rule_by_rule, _all_rules):
        told = _changed(text, before, after, rules)
        if told is not None and _reads_back(told, after):
            return told
    must = "must be laid out so that changes can be written into it"
    raise InputError(before.path, "", must, "another layout", "make the changes by hand")


def _changed(text: str, before: Loaded, after: ChangedSeason, rules: WriteRules) -> str | None:
    now = after.loaded.scenario
    try:
        document = tomlkit.parse(text)
        if after.loaded.season.fixtures != before.season.fixtures:
            _drop(document, "fixtures_file", "priorities")
            _put(document, "fixtures", _fixtures(now))
        if now.breaks != before.scenario.breaks:
            _put(document, "breaks", [_short(item.model_dump()) for item in now.breaks])
        if now.rules != before.scenario.rules:
            rules(document, before.scenario, now)
        return tomlkit.dumps(document)
    except TOMLKitError:
        return None


def _rule_by_rule(document: Any, before: Scenario, now: Scenario) -> None:
    """Write the rules that changed, each in its place."""
    for name, table in now.rules.items():
        if table != before.rules.get(name):
            document.setdefault("rules", tomlkit.table(is_super_table=True))[name] = table


def _all_rules(document: Any, before: Scenario, now: Scenario) -> None:
    """Write all rules anew, where they stood in keys with dots."""
    document.pop("rules", None)
    document["rules"] = now.rules


def _fixtures(scenario: Scenario) -> list[dict[str, Any]]:
    ordered = sorted(scenario.fixtures, key=lambda fixture: fixture.date)
    return [_short(fixture.model_dump(exclude_defaults=True)) for fixture in ordered]


def _short(values: Mapping[str, Any]) -> dict[str, Any]:
    """Leave out what says nothing, and write words as words."""
    return {
        key: getattr(value, "value", value)
        for key, value in values.items()
        if value not in (None, "")
    }


def _drop(document: Any, *keys: str) -> None:
    for key in keys:
        document.pop(key, None)


def _put(document: Any, key: str, rows: list[dict[str, Any]]) -> None:
    """Write rows in the way in which they stood there, else as tables of their own at the end."""
    if isinstance(document.get(key), tomlkit.items.Array):
        listed = tomlkit.array().multiline(True)
        for row in rows:
            line = tomlkit.inline_table()
            line.update(row)
            listed.append(line)
        document[key] = listed
        return
    document.pop(key, None)
    if rows:
        tables = tomlkit.aot()
        for row in rows:
            tables.append(tomlkit.item(row))
        document[key] = tables


def _reads_back(text: str, after: ChangedSeason) -> bool:
    try:
        return load_scenario(text, Path(after.loaded.path)).digest == after.loaded.digest
    except InputError:
        return False
