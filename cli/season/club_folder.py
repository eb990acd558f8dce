"""The folder of a club: what is closed is kept in it, with every state, as in a season folder."""

from pathlib import Path

from cli.files.club_file import NAME
from cli.season.commit import finish
from cli.season.folder import SCENARIO, Folder
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
        """Return the names of the files that decide its weeks, beside those of its squads."""
        return [NAME, CLOSED]

    def kept(self) -> list[str]:
        """Return the names of all files whose states are kept."""
        return self.deciding()


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
