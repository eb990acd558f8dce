"""Who of a squad file is under 18."""

from contextlib import suppress
from pathlib import Path

from cli.files.errors import InputError
from optimiser.domain.scenario import Scenario


def young_in(scenario: Scenario, folder: Path) -> tuple[list[str], bool]:
    """Return the names of those under 18 in a scenario's squad file, and whether all are.

    A squad file that is not there, lists nobody or cannot be read says nothing: commands that work
    with athletes tell what is wrong with it.
    """
    path = None if scenario.squad_file is None else folder / scenario.squad_file
    if path is None or not path.is_file():
        return [], False
    from cli.files.squad import lists_nobody, read_squad
    from optimiser.athlete.library import own_library

    with suppress(InputError):
        if not lists_nobody(path):
            library = own_library(scenario.prescriptions, scenario.exercises)
            athletes = read_squad(
                path, library.exercises, library.tags, scenario.first_monday
            ).athletes
            young = [athlete.name for athlete in athletes if athlete.young]
            return young, len(young) == len(athletes)
    return [], False
