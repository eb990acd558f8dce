"""What a scenario says about cards: own work, own exercises and what there is to load with."""

from pathlib import Path

from pydantic import BaseModel, ValidationError

from cli.files.errors import InputError, first_refused
from cli.files.known_keys import nearest
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded
from cli.files.squad import read_squad
from cli.files.toml_lines import line_of
from optimiser.athlete.card import Kit
from optimiser.athlete.equipment import Equipment
from optimiser.athlete.library import Library, own_library
from optimiser.athlete.squad import Squad
from optimiser.athlete.standing import Preparation, StandingKind, kind_tables, own_preparation


def read_library(loaded: Loaded) -> Library:
    """Return the exercise library with the scenario's ``prescriptions`` and ``exercises`` in it.

    Both were checked when the scenario was read.
    """
    return own_library(loaded.scenario.prescriptions, loaded.scenario.exercises)


def squad_at(path: Path, loaded: Loaded) -> Squad:
    """Return the squad in a file, with what a season's library and calendar say of athletes.

    Raises
    ------
    InputError
        If it cannot be used.
    """
    library = read_library(loaded)
    return read_squad(path, library.exercises, library.tags, loaded.scenario.first_monday)


def read_kit(loaded: Loaded) -> Kit:
    """Return what there is to train and to load with, by ``kit`` and ``equipment``.

    Raises
    ------
    InputError
        If it cannot be used.
    """
    try:
        kit = Kit.model_validate(loaded.scenario.kit)
    except ValidationError as error:
        raise _refused(loaded, error, Kit, ("kit",)) from None
    return kit.model_copy(update={"missing": (*kit.missing, *_missing(loaded))})


def _missing(loaded: Loaded) -> list[str]:
    """Return what a club has not, by the scenario's ``equipment``."""
    try:
        told = Equipment.model_validate(loaded.scenario.equipment)
    except ValidationError as error:
        raise _refused(loaded, error, Equipment, ("equipment",)) from None
    known = read_library(loaded).equipment
    for field, words in (("have", told.have or ()), ("missing", told.missing)):
        for word in words:
            if word not in known:
                raise InputError(
                    loaded.path,
                    f"equipment.{field}",
                    "must name equipment of the exercise library",
                    repr(word),
                    f"choose from {', '.join(sorted(known))}",
                )
    return sorted(told.lacking(known))


def read_preparation(loaded: Loaded) -> Preparation:
    """Return the standing work of a week, by the scenario's ``preparation``.

    Raises
    ------
    InputError
        If anything in it cannot be used.
    """
    tables = loaded.scenario.preparation
    for key, table in kind_tables(tables).items():
        try:
            StandingKind.model_validate(table)
        except ValidationError as error:
            raise _refused(loaded, error, StandingKind, ("preparation", key)) from None
    found = own_preparation(tables)
    known = read_library(loaded).exercises
    unknown = sorted(key for key in found.keys if key not in known)
    if unknown:
        close = nearest(unknown[0], known)
        raise InputError(
            loaded.path,
            "preparation",
            "must name exercises of the library",
            repr(unknown[0]),
            f"did you mean {close}?" if close else "add it under [exercises.KEY]",
        )
    return found


def _refused(
    loaded: Loaded, error: ValidationError, model: type[BaseModel], prefix: tuple[str, ...] = ()
) -> InputError:
    line = line_of(read_text(loaded.path), (*prefix, *first_refused(error)["loc"]))
    where = f"line {line}" if line else ""
    return InputError.from_pydantic(loaded.path, error, model, prefix, where)
