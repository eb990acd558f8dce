"""The files of a season folder, found from whatever a person names."""

import tomllib
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from cli.files.errors import InputError
from optimiser.domain.group import Group

SCENARIO, PLAN, DONE, HISTORY = "season.toml", "plan.json", "done.csv", "history.sqlite"
SQUAD, TESTS, AVAILABILITY = "squad.csv", "tests.csv", "availability.csv"
DAYS = "days.csv"
#: The plans of a squad's groups, where it has some.
GROUPS = "groups"
GROUP_PLANS = tuple(f"{GROUPS}/{group}.json" for group in Group)


@dataclass(frozen=True)
class Folder:
    """A season folder.

    Parameters
    ----------
    path
        The folder as a person named it.
    """

    path: Path

    @property
    def scenario(self) -> Path:
        """Return its scenario file."""
        return self.path / SCENARIO

    @property
    def plan(self) -> Path:
        """Return the file of the plan in force."""
        return self.path / PLAN

    @property
    def done(self) -> Path:
        """Return the file of what was done."""
        return self.path / DONE

    @property
    def days(self) -> Path:
        """Return the file of what is asked of its days."""
        return self.path / DAYS

    @property
    def history(self) -> Path:
        """Return the file that every applied state is kept in."""
        return self.path / HISTORY

    @property
    def groups(self) -> Path:
        """Return the folder of the plans of its groups."""
        return self.path / GROUPS

    def group_plan(self, group: str) -> Path:
        """Return the file of a group's plan in force."""
        return self.groups / f"{group}.json"

    def groups_in_force(self) -> list[str]:
        """Return the groups that have a plan in force."""
        return [str(group) for group in Group if self.group_plan(group).exists()]

    def deciding(self) -> list[str]:
        """Return the names of the files that decide the season and its plans."""
        return [SCENARIO, PLAN, *self._fixtures(), *GROUP_PLANS]

    def kept(self) -> list[str]:
        """Return the names of all files whose states are kept."""
        return [*self.deciding(), DONE, SQUAD, TESTS, AVAILABILITY, DAYS]

    def _fixtures(self) -> list[str]:
        """Return the fixtures file, if the scenario names one inside of the folder."""
        with suppress(OSError, UnicodeDecodeError, tomllib.TOMLDecodeError):
            table = tomllib.loads(self.scenario.read_text(encoding="utf-8-sig"))
            name = table.get("fixtures_file")
            if isinstance(name, str) and Path(name).name == name:
                return [name]
        return []

    def now(self, names: list[str] | None = None) -> dict[str, bytes | None]:
        """Return what stands in its files at this moment; None where there is none.

        Raises
        ------
        InputError
            If one cannot be read.
        """
        return {name: _bytes(self.path / name) for name in (names or self.kept())}


def folder_of(scenario: Path) -> Folder | None:
    """Return the season folder a scenario file is that of, or None if it stands alone."""
    if scenario.name == SCENARIO and (scenario.parent / HISTORY).exists():
        return Folder(scenario.parent)
    return None


def _bytes(path: Path) -> bytes | None:
    try:
        return path.read_bytes() if path.exists() else None
    except OSError as error:
        raise InputError.from_os(path, error) from None
