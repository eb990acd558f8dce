"""Rule sets: files of changed rules that are laid over a scenario's own."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from cli.files.errors import InputError, shown
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded, digest_of, parse_toml
from cli.files.scenario_rules import check_rules

#: The set that changes nothing.
AS_WRITTEN = "as written"

Tables = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True)
class RuleSet:
    """Changed rules under a name.

    Parameters
    ----------
    tables
        By rule name, what is changed.
    """

    name: str
    tables: Tables


def read_rule_sets(paths: Sequence[Path]) -> list[RuleSet]:
    """Return the base set and the set of each file, named by the file's stem.

    Raises
    ------
    InputError
        If a file has anything but ``[rules.NAME]`` tables that fit, or two have one name.
    """
    sets = [RuleSet(AS_WRITTEN, {})]
    for path in paths:
        name = path.stem
        if name in [item.name for item in sets]:
            raise InputError(
                path, "", "rule sets must have names of their own", name, "rename the file"
            )
        sets.append(RuleSet(name, _read(path)))
    return sets


def under(loaded: Loaded, rules: RuleSet) -> Loaded:
    """Return the season with a rule set laid over the scenario's own rules."""
    merged = merge(loaded.scenario.rules, rules.tables)
    scenario = loaded.scenario.model_copy(update={"rules": merged})
    return replace(loaded, scenario=scenario, digest=digest_of(scenario, loaded.season))


def merge(below: Mapping[str, Any], above: Mapping[str, Any]) -> dict[str, Any]:
    """Return ``below`` with the values of ``above`` over it, tables key by key."""
    merged = dict(below)
    for key, value in above.items():
        held = merged.get(key)
        both = isinstance(held, Mapping) and isinstance(value, Mapping)
        merged[key] = merge(held or {}, value) if both else value
    return merged


def _read(path: Path) -> Tables:
    table = parse_toml(read_text(path), path)
    other = sorted(set(table) - {"rules"})
    if other:
        raise InputError(
            path,
            other[0],
            "a rule set holds [rules.NAME] tables only",
            other[0],
            "move it to the scenario",
        )
    rules = table.get("rules", {})
    for name, held in rules.items() if isinstance(rules, dict) else [("rules", rules)]:
        if not isinstance(held, dict):
            raise InputError(path, name, "must be a table", shown(held), "write [rules.NAME]")
    check_rules(path, rules)
    return dict(rules)
