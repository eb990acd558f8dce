"""The rules of a scenario, or what is wrong with them and where."""

from typing import Any

from pydantic import ValidationError

from cli.files.errors import InputError, first_refused, shown
from cli.files.known_keys import nearest
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded
from cli.files.toml_lines import line_of
from constraints import CATALOGUE
from constraints.load import load_rules
from optimiser.rule import Rule

Key = tuple[str | int, ...]


def read_rules(loaded: Loaded) -> list[Rule]:
    """Return the rules in use, in the order of the catalogue.

    Raises
    ------
    InputError
        With the line, if a table names no rule or a parameter does not fit.
    """
    for name, table in loaded.scenario.rules.items():
        _check(loaded, name, table)
    return load_rules(loaded.scenario.rules, loaded.season)


def _check(loaded: Loaded, name: str, table: dict[str, Any]) -> None:
    """Load one table on its own, so that what is wrong has a name."""
    if name not in CATALOGUE:
        close = nearest(name, CATALOGUE)
        do = f"did you mean {close}?" if close else f"rules: {', '.join(CATALOGUE)}"
        raise _error(loaded, ("rules", name), "must be the name of a rule", name, do)
    use = table.get("use", True)
    if not isinstance(use, bool):
        where = ("rules", name, "use")
        raise _error(loaded, where, "must be true or false", shown(use), "write false")
    try:
        load_rules({name: table}, loaded.season)
    except ValidationError as error:
        key = ("rules", name, *first_refused(error)["loc"])
        raise InputError.from_pydantic(
            loaded.path, error, CATALOGUE[name], ("rules", name), _line(loaded, key)
        ) from None
    except ValueError as error:
        raise _error(loaded, ("rules", name), str(error), "", "change the table") from None


def _error(loaded: Loaded, key: Key, must: str, got: str, do: str) -> InputError:
    where = ", ".join(part for part in (_line(loaded, key), ".".join(map(str, key))) if part)
    return InputError(loaded.path, where, must, got, do)


def _line(loaded: Loaded, key: Key) -> str:
    line = line_of(read_text(loaded.path), key)
    return f"line {line}" if line else ""
