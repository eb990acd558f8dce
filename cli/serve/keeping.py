"""The files of a season on the page: seen once, and written only if nobody else changed them."""

import datetime as dt
from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from pathlib import Path

from cli.files.safe_write import write_bytes
from cli.files.scenario_file import Loaded
from cli.season.commit import Action, ChangedMeanwhileError, commit, restore, step_back, step_on
from cli.season.difference import difference
from cli.season.folder import PLAN, Folder, folder_of
from cli.season.history import BY_HAND, Version, opened
from cli.season.rewrite import rewritten
from optimiser.domain.edits import Edit

Bytes = dict[str, bytes | None]
DO = "Take in what is on file, then save again."


class NotNowError(Exception):
    """Something that cannot be done at the moment, in words for people.

    Parameters
    ----------
    shown
        Lines to look at, such as what differs between two states of a file.
    """

    def __init__(self, words: str, shown: str = "") -> None:
        super().__init__(words)
        self.shown = shown


class Files(ABC):
    """Where a season and its plan are kept."""

    seen: Bytes

    @property
    @abstractmethod
    def names(self) -> tuple[str, ...]:
        """Return the names of what a save may write."""

    @abstractmethod
    def check(self) -> None:
        """Look whether the files are as they were seen.

        Raises
        ------
        NotNowError
            If one of them was changed by somebody else meanwhile.
        """

    @abstractmethod
    def write(self, changes: Mapping[str, bytes], words: str) -> None:
        """Write files together; nothing is written if one was changed by somebody else."""

    @property
    def versions(self) -> list[Version]:
        """Return every state that was applied, oldest first; none where no history is kept."""
        return []

    @property
    def current(self) -> int | None:
        """Return the version that stands."""
        return None

    def follow(self, before: "Files") -> None:
        """Take over what is to be remembered of the files as they were seen before, if anything."""
        return

    def back(self, today: dt.date) -> str:
        """Take the last save back, and say what was."""
        raise NotNowError("There is no save to take back.")

    def on(self, today: dt.date) -> str:
        """Do the save again that was taken back last."""
        raise NotNowError("There is no save to do again.")

    def restore(self, number: int, today: dt.date) -> None:
        """Put a version in force."""
        raise NotNowError("Versions are kept in season folders.")


class FolderFiles(Files):
    """A season folder, whose history keeps every state."""

    def __init__(self, folder: Folder) -> None:
        self.folder = folder
        self.seen = folder.now()

    @property
    def names(self) -> tuple[str, ...]:
        """Return its deciding files."""
        return tuple(self.folder.deciding())

    def check(self) -> None:
        """Look at the deciding files."""
        now = self.folder.now(list(self.names))
        _check_same({name: self.seen.get(name) for name in self.names}, now)

    def write(self, changes: Mapping[str, bytes], words: str) -> None:
        """Write as one version."""
        seen = {name: data for name, data in self.seen.items() if name in self.names}
        try:
            commit(self.folder, Action("serve", words), dict(changes), seen)
        except ChangedMeanwhileError as error:
            raise _meanwhile(error) from None

    @property
    def versions(self) -> list[Version]:
        """Return the versions of its history."""
        with opened(self.folder.history) as history:
            return history.versions()

    @property
    def current(self) -> int | None:
        """Return the version that stands."""
        with opened(self.folder.history) as history:
            return history.current()

    def back(self, today: dt.date) -> str:
        """Take the last action back."""
        return self._stepped(step_back, today, "There is nothing to take back.")

    def on(self, today: dt.date) -> str:
        """Do the last action again."""
        return self._stepped(step_on, today, "There is nothing to do again.")

    def _stepped(self, step: object, today: dt.date, nothing: str) -> str:
        assert callable(step)
        try:
            version = step(self.folder, today)
        except ChangedMeanwhileError as error:
            raise _meanwhile(error) from None
        if version is None or version.action == BY_HAND:
            raise NotNowError(nothing)
        return f"{version.action}: {version.words}"

    def restore(self, number: int, today: dt.date) -> None:
        """Put a version in force, as an action that can be taken back."""
        with opened(self.folder.history) as history:
            version = history.version(number)
        if version is None:
            raise NotNowError("That version is not there.")
        try:
            restore(self.folder, version, today)
        except ChangedMeanwhileError as error:
            raise _meanwhile(error) from None


class LoneFiles(Files):
    """A scenario that stands alone, with its fixtures file and its plan beside it."""

    def __init__(self, loaded: Loaded) -> None:
        self.path = loaded.path
        self.plan = loaded.path.with_suffix(".plan.json")
        listed = loaded.scenario.fixtures_file
        self._all = [self.path.name, *([listed] if listed else []), self.plan.name]
        self.seen = self._now(self._all)
        self._saves: list[Bytes] = []

    @property
    def names(self) -> tuple[str, ...]:
        """Return the scenario, its fixtures and its plan."""
        return tuple(Path(name).name for name in self._all)

    def check(self) -> None:
        """Look at the scenario, its fixtures and its plan."""
        _check_same(self.seen, self._now(list(self.seen)))

    def write(self, changes: Mapping[str, bytes], words: str) -> None:
        """Write each file, those that are new as well."""
        self.check()
        before = self._now([*changes])
        for name, data in changes.items():
            write_bytes(self.path.parent / name, data)
        self._saves.append(before)
        self._all = list(dict.fromkeys([*self._all, *changes]))
        self.seen = self._now(self._all)

    def back(self, today: dt.date) -> str:
        """Put the files back that the last save has written."""
        if not self._saves:
            raise NotNowError("There is no save to take back.")
        self.check()
        for name, data in self._saves.pop().items():
            place = self.path.parent / name
            if data is not None:
                write_bytes(place, data)
            elif place.exists():
                place.unlink()
        self.seen = self._now(self._all)
        return "the last save"

    def follow(self, before: Files) -> None:
        """Take over the saves that can be taken back."""
        if isinstance(before, LoneFiles):
            self._saves = before._saves

    def _now(self, names: Sequence[str]) -> Bytes:
        places = {name: self.path.parent / name for name in names}
        return {name: p.read_bytes() if p.is_file() else None for name, p in places.items()}


def _check_same(expected: Bytes, now: Bytes) -> None:
    for name, data in expected.items():
        if now[name] != data:
            words = f"{name} was changed by somebody else meanwhile, so nothing was written."
            raise NotNowError(f"{words} {DO}", difference(name, data, now[name]))


def files_of(loaded: Loaded) -> Files:
    """Return the files of a season as they stand now."""
    folder = folder_of(loaded.path)
    return FolderFiles(folder) if folder else LoneFiles(loaded)


def changed_files(loaded: Loaded, edits: Sequence[Edit], files: Files) -> dict[str, bytes]:
    """Return the scenario and the fixtures after edits, comments and columns kept.

    Raises
    ------
    NotNowError
        If somebody else has changed them meanwhile.
    InputError
        If they are laid out so that edits cannot be written into them.
    """
    files.check()
    return dict(rewritten(loaded, edits).files) if edits else {}


def plan_name(files: Files) -> str:
    """Return the name of the file of the plan."""
    return files.plan.name if isinstance(files, LoneFiles) else PLAN


def _meanwhile(error: ChangedMeanwhileError) -> NotNowError:
    head, _, shown = error.message.partition("\n")
    return NotNowError(f"{head.removesuffix('Run the command again to take it in.')}{DO}", shown)
