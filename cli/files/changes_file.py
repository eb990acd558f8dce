"""Changes of a season, from a file or from options, and the season they make."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from cli.files.errors import InputError, first_refused
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded, digest_of, parse_toml
from cli.files.toml_lines import line_of
from constraints import CATALOGUE
from constraints.load import load_rules
from optimiser.change.apply import Changed, apply_edits
from optimiser.domain.changes import Changes, Futures
from optimiser.domain.edits import EDITS, RULE_EDITS, Edit, Set
from optimiser.domain.edits.work import EditError
from optimiser.domain.fixture import Fixture
from optimiser.domain.setup_error import SetupError
from optimiser.rule import Rule

M = TypeVar("M", bound=BaseModel)


@dataclass(frozen=True)
class Origin:
    """Where edits come from, for messages.

    Parameters
    ----------
    file
        The file, or what stands for it.
    text
        Its text; empty for options.
    table
        Keys that lead to the edits in it.
    labels
        The options as typed; empty for a file.
    """

    file: str
    text: str = ""
    table: tuple[str | int, ...] = ()
    labels: tuple[str, ...] = ()

    def error(self, error: SetupError) -> InputError:
        """Return ``error`` as one of this origin."""
        if not isinstance(error, EditError):
            return InputError.from_setup(self.file, error)
        if self.labels:
            return InputError(self.labels[error.edit], "", error.must, error.got, error.do)
        place = (*self.table, "edits", error.edit)
        line = line_of(self.text, place) if self.text else None
        where = f"edits[{error.edit + 1}].{error.where}"
        where = f"line {line}, {where}" if line else where
        return InputError.from_setup(self.file, error, where)


@dataclass(frozen=True)
class GivenChanges:
    """Changes and where they came from."""

    changes: Changes
    origin: Origin


@dataclass(frozen=True)
class ChangedSeason:
    """A season after changes, with its rules.

    Parameters
    ----------
    pairs
        Every fixture as it was and as it is.
    """

    name: str
    loaded: Loaded
    rules: tuple[Rule, ...]
    pairs: tuple[tuple[Fixture | None, Fixture | None], ...]


def read_changes(path: Path) -> GivenChanges:
    """Return the changes in the TOML file ``path``.

    Raises
    ------
    InputError
        With the line, if it cannot be used.
    """
    text = read_text(path)
    table = parse_toml(text, path)
    if "name" not in table:
        table["name"] = path.stem
    return GivenChanges(_model(path, text, table, Changes), Origin(str(path), text))


def read_futures(path: Path) -> tuple[Futures, str]:
    """Return the futures in the TOML file ``path``, and its text.

    Raises
    ------
    InputError
        With the line, if it cannot be used.
    """
    text = read_text(path)
    return _model(path, text, parse_toml(text, path), Futures), text


def changed_season(
    loaded: Loaded, name: str, edits: Sequence[Edit], origin: Origin
) -> ChangedSeason:
    """Return the season after ``edits``.

    Raises
    ------
    InputError
        If an edit cannot be made, or a rule cannot be as it says.
    """
    try:
        changed = apply_edits(loaded.scenario, loaded.season, edits, usual_parameters())
    except SetupError as error:
        raise origin.error(error) from None
    rules = _rules(changed, edits, origin)
    digest = digest_of(changed.scenario, changed.season)
    there = Loaded(changed.scenario, changed.season, digest, loaded.path)
    return ChangedSeason(name, there, rules, changed.pairs)


@cache
def usual_parameters() -> dict[str, dict[str, Any]]:
    """Return every rule's parameters as they are if nothing is said."""
    return {name: kind().model_dump() for name, kind in CATALOGUE.items()}


def _model(path: Path, text: str, table: dict[str, Any], model: type[M]) -> M:
    try:
        return model.model_validate(table)
    except ValidationError as error:
        raise _refused(path, text, table, error, model) from None


def _refused(
    path: Path, text: str, table: dict[str, Any], error: ValidationError, model: type[BaseModel]
) -> InputError:
    """Return what was refused; of an edit, what its own type says of it."""
    place = first_refused(error)["loc"]
    parent = next((n for n, key in enumerate(place) if key in EDITS and n > 1), None)
    if parent is None:
        return InputError.from_pydantic(path, error, model, where=_line(text, place))
    prefix, given = place[:parent], table
    for key in prefix:
        given = given[key]  # type: ignore[index]
    kind = EDITS[str(place[parent])]
    try:
        kind.model_validate(given)
    except ValidationError as inner:
        where = _line(text, (*prefix, *first_refused(inner)["loc"]))
        return InputError.from_pydantic(path, inner, kind, prefix, where)
    return InputError.from_pydantic(path, error, model, where=_line(text, place))


def _line(text: str, place: tuple[str | int, ...]) -> str:
    line = line_of(text, place)
    return f"line {line}" if line else ""


def _rules(changed: Changed, edits: Sequence[Edit], origin: Origin) -> tuple[Rule, ...]:
    for index, edit in enumerate(edits):
        if isinstance(edit, RULE_EDITS):
            _check_rule(changed, edits, index, origin)
    return tuple(load_rules(changed.scenario.rules, changed.season))


def _check_rule(changed: Changed, edits: Sequence[Edit], index: int, origin: Origin) -> None:
    """Load the rule an edit speaks of, so that what is wrong has a place."""
    name: str = getattr(edits[index], "rule", "pin")
    if name not in CATALOGUE:
        known = f"rules: {', '.join(CATALOGUE)}"
        error = EditError(index, "rule", "must be the name of a rule", name, known)
        raise origin.error(error) from None
    try:
        load_rules({name: changed.scenario.rules.get(name, {})}, changed.season)
    except ValidationError as refused:
        told = InputError.from_pydantic("", refused, CATALOGUE[name], (name,))
        at = _setting(edits, told.where, index)
        raise origin.error(
            EditError(at, told.where, f"{told.where} {told.must}", told.got, told.do)
        ) from None
    except ValueError as refused:
        said = EditError(index, name, f"{name}: {refused}", "", "change the edit")
        raise origin.error(said) from None


def _setting(edits: Sequence[Edit], where: str, index: int) -> int:
    """Return which edit sets the parameter that was refused, or ``index``."""
    sets = [
        at
        for at, edit in enumerate(edits)
        if isinstance(edit, Set) and f"{where}.".startswith(f"{edit.rule}.{edit.parameter}.")
    ]
    return sets[-1] if sets else index
