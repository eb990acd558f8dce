"""What is on the desk: one season, or the page to start from."""

import datetime as dt
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from cli.files.errors import InputError
from cli.season.commit import open_folder
from cli.season.folder import SCENARIO
from cli.serve.drafting import Drafting, ListFile, Reading, Wish
from cli.serve.keeping import NotNowError
from cli.serve.opening import open_season
from cli.serve.places import copied_demo, demos, seasons
from cli.serve.session import Session
from cli.serve.solver import begin_early, end_early


class Desk:
    """The page's one season, if one is open, and the directory where seasons are kept.

    Parameters
    ----------
    where
        Directory whose seasons can be opened and in which new ones are made.
    today
        Tells what day it is.
    """

    def __init__(self, where: Path, today: Callable[[], dt.date]) -> None:
        self.lock = threading.RLock()
        self.where, self.today = where.resolve(), today
        self.session: Session | None = None
        self.drafting: Drafting | None = None

    def put(self, session: Session) -> None:
        """Put a season on the desk; the one that was there is put away."""
        with self.lock:
            if self.session is not None:
                # tabs that show the season put away must see that this is another one
                session.revision += self.session.revision + 1
                session.version += self.session.version + 1
                self.session.close()
            self.session = session

    def open(self, path: Path, plan: Path | None = None) -> None:
        """Open a season.

        Raises
        ------
        InputError
            If it cannot be used.
        """
        scenario = path / SCENARIO if path.is_dir() else path
        if path.is_dir():
            open_folder(path)
        self.put(Session(open_season(scenario, self.today(), plan), self.today))

    def open_named(self, name: str) -> None:
        """Open one of the seasons of the directory."""
        known = {row["path"] for row in seasons(self.where)}
        if name not in known:
            raise NotNowError("That season is no longer there.")
        self.open(self.where / name)

    def open_demo(self, name: str) -> None:
        """Copy a demo season into the directory and open it."""
        self.open(copied_demo(name, self.where))

    def away(self) -> None:
        """Put the season away and show the page to start from."""
        with self.lock:
            if self.session is not None:
                self.session.close()
            self.session = None

    def look(self, place: str) -> None:
        """Look for seasons in another directory.

        Raises
        ------
        InputError
            If it is not there.
        """
        path = Path(place).expanduser()
        path = path if path.is_absolute() else self.where / path
        if not path.is_dir():
            do = "name one that is there"
            raise InputError(place, "", "must be a folder", "nothing of that name", do)
        if (path / SCENARIO).is_file():
            self.open(path)
        self.where = path.resolve()

    def read(self, given: ListFile) -> dict[str, Any]:
        """Take a fixture list, and return what was understood of it."""
        begin_early()  # while people look at what was read
        self.drafting = Drafting(given)
        return self.drafting.found(Reading())

    def read_again(self, reading: Reading) -> dict[str, Any]:
        """Read the list anew with what a person says about it."""
        return self._draft().found(reading)

    def make(self, wish: Wish) -> None:
        """Make a season folder of the list, and open it."""
        self.open(self._draft().make(wish, self.where))

    def _draft(self) -> Drafting:
        if self.drafting is None:
            raise NotNowError("Drop the fixture list again.")
        return self.drafting

    def start_state(self) -> dict[str, Any]:
        """Return what can be started with."""
        return {
            "place": "start",
            "folder": str(self.where),
            "seasons": seasons(self.where),
            "demos": demos(),
        }

    def close(self) -> None:
        """End what runs."""
        end_early()
        if self.session is not None:
            self.session.close()
