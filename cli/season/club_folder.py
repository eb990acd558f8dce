"""The folder of a club: what is closed is kept in it, with every state, as in a season folder."""

import tomllib
from contextlib import suppress
from pathlib import Path, PurePosixPath

from cli.files.club_file import NAME
from cli.season.commit import finish
from cli.season.folder import SCENARIO, Folder, folder_of
from cli.season.history import opened

CLOSED = "closed.csv"


class ClubFolder(Folder):
    """A club's folder, with `club.toml` where a season has its scenario."""

    @property
    def scenario(self) -> Path:
        """Return the club's file."""
        return self.path / NAME

    @property
    def closed(self) -> Path:
        """Return the file of what is closed on which days."""
        return self.path / CLOSED

    def deciding(self) -> list[str]:
        """Return the names of the files that decide its weeks, beside its squads' scenarios."""
        return [NAME, CLOSED, *self.plans()]

    def plans(self) -> list[str]:
        """Return the names of its squads' plans that are JSON files of its own.

        They lie inside of it, and in no season folder, which would keep their history itself.
        """
        with suppress(OSError, UnicodeDecodeError, tomllib.TOMLDecodeError, AttributeError):
            table = tomllib.loads(self.scenario.read_text(encoding="utf-8-sig"))
            squads = table.get("squads", [])
            named = [part.get("plan") for part in squads if not self._kept_apart(part)]
            return [name for name in dict.fromkeys(named) if _inside(name)]
        return []

    def _kept_apart(self, squad: dict[str, object]) -> bool:
        """Tell whether a squad's plan is that in force of a season folder."""
        scenario = self.path / str(squad.get("scenario"))
        season = folder_of(scenario / SCENARIO if scenario.is_dir() else scenario)
        plan = squad.get("plan")
        return season is not None and (plan is None or _same(self.path / str(plan), season.plan))

    def kept(self) -> list[str]:
        """Return the names of all files whose states are kept."""
        return self.deciding()


def _same(one: Path, other: Path) -> bool:
    return one.exists() and other.exists() and one.samefile(other)


def _inside(name: object) -> bool:
    if not isinstance(name, str):
        return False
    path = PurePosixPath(name)
    return path.suffix.lower() == ".json" and not path.is_absolute() and ".." not in path.parts


def is_club(path: Path) -> bool:
    """Tell whether a folder is that of a club, and of no season."""
    return (path / NAME).is_file() and not (path / SCENARIO).exists()


def open_club(path: Path) -> ClubFolder:
    """Return a club's folder; a write that was broken off is finished first."""
    folder = ClubFolder(path)
    if folder.history.exists():
        with opened(folder.history) as history:
            finish(folder, history)
    return folder
