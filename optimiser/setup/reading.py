"""Reading a scenario that has everything in one file."""

import tomllib
from pathlib import Path

from optimiser.domain.scenario import Scenario


def read_scenario(path: str | Path) -> Scenario:
    """Return the scenario in a TOML file.

    Raises
    ------
    OSError
        If the file cannot be read.
    ValueError
        If it is not TOML, does not fit, or keeps its fixtures in a file of their own, which
        ``cli.files.scenario_file.read_scenario`` reads.
    """
    scenario = Scenario.model_validate(tomllib.loads(Path(path).read_text(encoding="utf-8")))
    if scenario.fixtures_file is not None:
        raise ValueError(
            f"{path}: fixtures must stand in the scenario itself (got fixtures_file = "
            f"{scenario.fixtures_file!r}); read it with cli.files.scenario_file.read_scenario"
        )
    return scenario
