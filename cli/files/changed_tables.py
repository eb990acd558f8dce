"""Tables of a scenario written anew in TOML, where a change asks for it."""

from collections.abc import Mapping
from typing import Any

import tomlkit

from optimiser.domain.fixture import Fixture
from optimiser.domain.scenario import Scenario


def rule_by_rule(document: Any, before: Scenario, now: Scenario) -> None:
    """Write the rules that changed, each in its place."""
    for name, table in now.rules.items():
        if table != before.rules.get(name):
            rules = document.setdefault("rules", tomlkit.table(is_super_table=True))
            if isinstance(rules.get(name), tomlkit.items.Table):
                put_entries(rules[name], table)
            else:
                rules[name] = table


def put_entries(table: Any, wanted: Mapping[str, Any]) -> None:
    """Write the entries of a table that differ; comments beside the others stay."""
    for key in [key for key in table if key not in wanted]:
        del table[key]
    for key, value in wanted.items():
        if key not in table or table[key] != value:
            table[key] = value


def all_rules(document: Any, before: Scenario, now: Scenario) -> None:
    """Write all rules anew, where they stood in keys with dots."""
    document.pop("rules", None)
    document["rules"] = now.rules


def fixture_row(fixture: Fixture) -> dict[str, Any]:
    """Return a fixture as a table of the scenario."""
    return short(fixture.model_dump(exclude_defaults=True))


def short(values: Mapping[str, Any]) -> dict[str, Any]:
    """Leave out what says nothing, and write words as words."""
    return {
        key: getattr(value, "value", value)
        for key, value in values.items()
        if value not in (None, "")
    }


def put_rows(document: Any, key: str, rows: list[dict[str, Any]]) -> None:
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
