"""What a scenario says about cards: own work, own exercises and what there is to load with."""

from pydantic import BaseModel, ValidationError

from cli.files.errors import InputError, first_refused
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded
from cli.files.toml_lines import line_of
from optimiser.athlete.card import Kit
from optimiser.athlete.library import Library, OwnWork, own_library


def read_library(loaded: Loaded) -> Library:
    """Return the exercise library with the scenario's ``prescriptions`` and ``exercises`` in it.

    Raises
    ------
    InputError
        If anything in them cannot be used.
    """
    try:
        return own_library(loaded.scenario.prescriptions, loaded.scenario.exercises)
    except ValidationError as error:
        raise _refused(loaded, error, OwnWork) from None


def read_kit(loaded: Loaded) -> Kit:
    """Return what there is to load with, by the scenario's ``kit``.

    Raises
    ------
    InputError
        If it cannot be used.
    """
    try:
        return Kit.model_validate(loaded.scenario.kit)
    except ValidationError as error:
        raise _refused(loaded, error, Kit, ("kit",)) from None


def _refused(
    loaded: Loaded, error: ValidationError, model: type[BaseModel], prefix: tuple[str, ...] = ()
) -> InputError:
    line = line_of(read_text(loaded.path), (*prefix, *first_refused(error)["loc"]))
    where = f"line {line}" if line else ""
    return InputError.from_pydantic(loaded.path, error, model, prefix, where)
