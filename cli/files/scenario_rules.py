"""The rules of a scenario, or what is wrong with them and where."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from cli.files.errors import InputError, first_refused, shown
from cli.files.known_keys import nearest
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded
from cli.files.toml_lines import line_of
from constraints import CATALOGUE
from constraints.load import load_rules
from optimiser.domain.season import Season
from optimiser.rule import Rule

Key = tuple[str | int, ...]


def read_rules(loaded: Loaded) -> list[Rule]:
    """Return the rules in use, in the order of the catalogue.

    Raises
    ------
    InputError
        With the line, if a table names no rule or a parameter does not fit.
    """
    check_rules(loaded.path, loaded.scenario.rules, loaded.season)
    return load_rules(loaded.scenario.rules, loaded.season)


def check_rules(
    path: Path, tables: Mapping[str, Mapping[str, Any]], season: Season | None = None
) -> None:
    """Refuse what is wrong with the ``[rules.NAME]`` tables of the file ``path``.

    Parameters
    ----------
    season
        If given, parameters are checked against it.

    Raises
    ------
    InputError
        With the line, if a table names no rule or a parameter does not fit.
    """
    for name, table in tables.items():
        _check(path, name, table, season)


def _check(path: Path, name: str, table: Mapping[str, Any], season: Season | None) -> None:
    """Load one table on its own, so that what is wrong has a name."""
    if name not in CATALOGUE:
        close = nearest(name, CATALOGUE)
        do = f"did you mean {close}?" if close else f"rules: {', '.join(CATALOGUE)}"
        raise _error(path, ("rules", name), "must be the name of a rule", name, do)
    use = table.get("use", True)
    if not isinstance(use, bool):
        where = ("rules", name, "use")
        raise _error(path, where, "must be true or false", shown(use), "write false")
    try:
        load_rules({name: table}, season)
    except ValidationError as error:
        key = ("rules", name, *first_refused(error)["loc"])
        raise InputError.from_pydantic(
            path, error, CATALOGUE[name], ("rules", name), _line(path, key)
        ) from None
    except ValueError as error:
        raise _error(path, ("rules", name), str(error), "", "change the table") from None


def _error(path: Path, key: Key, must: str, got: str, do: str) -> InputError:
    where = ", ".join(part for part in (_line(path, key), ".".join(map(str, key))) if part)
    return InputError(path, where, must, got, do)


def _line(path: Path, key: Key) -> str:
    line = line_of(read_text(path), key)
    return f"line {line}" if line else ""
