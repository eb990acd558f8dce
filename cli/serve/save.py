"""A changed season written back into its scenario file; comments and layout stay."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from cli.files.changed_tables import all_rules, fixture_row, put_rows, rule_by_rule, short
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
    for rules in (rule_by_rule, all_rules):
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
            document.pop("fixtures_file", None)
            document.pop("priorities", None)
            put_rows(document, "fixtures", _fixtures(now))
        if now.breaks != before.scenario.breaks:
            put_rows(document, "breaks", [short(item.model_dump()) for item in now.breaks])
        if now.rules != before.scenario.rules:
            rules(document, before.scenario, now)
        return tomlkit.dumps(document)
    except TOMLKitError:
        return None


def _fixtures(scenario: Scenario) -> list[dict[str, Any]]:
    ordered = sorted(scenario.fixtures, key=lambda fixture: fixture.date)
    return [fixture_row(fixture) for fixture in ordered]


def _reads_back(text: str, after: ChangedSeason) -> bool:
    try:
        return load_scenario(text, Path(after.loaded.path)).digest == after.loaded.digest
    except InputError:
        return False
