"""Several files of a season folder written together: all of them or none, whenever it is ended."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import click

from cli.files.errors import InputError
from cli.files.safe_write import write_bytes
from cli.season.difference import difference
from cli.season.folder import GROUP_PLANS, PLAN, Folder
from cli.season.history import BY_HAND, History, State, Version, opened
from cli.season.past import keep_past

FOUND = "as found"


class ChangedMeanwhileError(click.ClickException):
    """A file that was changed by somebody else; at the command line the difference is shown."""

    def __init__(self, path: Path, shown: str, do: str) -> None:
        super().__init__(
            f"{path}: was changed by somebody else meanwhile, so nothing was written. {do}\n{shown}"
        )


def open_folder(path: Path) -> Folder:
    """Return the season folder in ``path``; a write that was broken off is finished first.

    Raises
    ------
    InputError
        If it holds no scenario.
    """
    folder = Folder(path)
    fresh = not folder.history.exists()
    if not fresh:
        with opened(folder.history) as history:
            finish(folder, history)
    if not folder.scenario.exists():
        must = f"must be a scenario file, or a season folder with a {folder.scenario.name} in it"
        do = "make one with `seasonwright new --fixtures FILE -o FOLDER`"
        raise InputError(path, "", must, "a folder without one", do)
    with opened(folder.history) as history:
        if fresh or history.current() is None:
            history.stands(history.add(folder.now(), FOUND, "the files as they were", []))
    return folder


def begin(folder: Folder, files: Mapping[str, bytes]) -> int:
    """Write the first files of a season together, as its first version, and return that."""
    with opened(folder.history) as history:
        now = folder.now(sorted({*folder.kept(), *files}))
        number = history.add({**now, **files}, FOUND, "the season as it was made", [])
        history.begin(now, files, number)
    return _written(folder)


def finish(folder: Folder, history: History) -> None:
    """End a write that was broken off; what somebody has changed since is left, and told."""
    pending = history.pending()
    if pending is None:
        return
    now = folder.now(list(pending.after))
    for name, data in pending.after.items():
        if now[name] in (pending.before[name], data):
            _put(folder.path / name, data)
            continue
        shown = difference(name, data, now[name])
        said = "was changed while a write was unfinished; it is left as it is"
        click.echo(f"{folder.path / name}: {said}.\n{shown}", err=True)
    history.stands(pending.version)


@dataclass(frozen=True)
class Action:
    """A command that writes, for the list of versions."""

    name: str
    words: str


def commit(
    folder: Folder,
    action: Action,
    changes: Mapping[str, bytes | None],
    seen: State,
) -> int:
    """Write files of a folder together, and return the version that then stands.

    Parameters
    ----------
    changes
        The files to write by name; None takes a file away.
    seen
        What the command has read and worked from, by name.

    Raises
    ------
    ChangedMeanwhileError
        If one of the files seen is not as it was; nothing is written then.
    """
    with opened(folder.history) as history:
        finish(folder, history)
        now = folder.now(sorted({*folder.kept(), *changes, *seen}))
        _check(folder, seen, now, "Run the command again to take it in.")
        _keep_by_hand(history, now)
        touched = [name for name, data in changes.items() if now.get(name) != data]
        number = history.add({**now, **changes}, action.name, action.words, touched)
        history.begin(now, changes, number)
    return _written(folder)


def check_unchanged(folder: Folder, seen: State) -> None:
    """Refuse to go on where a file is not as it was when it was read.

    Raises
    ------
    ChangedMeanwhileError
        If one is not.
    """
    now = folder.now(sorted({*folder.kept(), *seen}))
    _check(folder, seen, now, "Run the command again to take it in.")


def step_back(folder: Folder, today: dt.date) -> Version | None:
    """Take the last action back, and return it; None if there is none.

    Parameters
    ----------
    today
        Weeks that are over by then keep the plan they had.

    Raises
    ------
    ChangedMeanwhileError
        If somebody has changed one of its files since.
    """
    with opened(folder.history) as history:
        finish(folder, history)
        version = _last_action(history)
        if version is None or version.parent is None:
            return None
        goal = _goal(folder, history, version.parent, today)
        _turn(folder, history, version, history.state(version.id), goal)
        before = history.version(version.parent)
        changed = before is not None and goal != history.state(version.parent)
        stands = history.add_like(before, goal) if changed and before else version.parent
        _stand_after(history, stands)
    _written(folder)
    return version


def step_on(folder: Folder, today: dt.date) -> Version | None:
    """Do again what was taken back last, and return it; None if there is nothing.

    Raises
    ------
    ChangedMeanwhileError
        If somebody has changed one of its files since.
    """
    with opened(folder.history) as history:
        finish(folder, history)
        current = history.current()
        following = [each for each in history.versions() if each.parent == current]
        version = following[-1] if following else None
        if version is None or version.parent is None or version.action == BY_HAND:
            return None
        goal = _goal(folder, history, version.id, today)
        _turn(folder, history, version, history.state(version.parent), goal)
        changed = goal != history.state(version.id)
        _stand_after(history, history.add_like(version, goal) if changed else version.id)
    _written(folder)
    return version


def _goal(folder: Folder, history: History, number: int, today: dt.date) -> dict[str, bytes | None]:
    """Return the files of a version, its plans with the weeks that are over as they stand now."""
    state = history.state(number)
    plans = [name for name in folder.kept() if name in (PLAN, *GROUP_PLANS)]
    now = folder.now(plans) if plans else {}
    return {**state, **{name: keep_past(now[name], state.get(name), today) for name in now}}


def restore(folder: Folder, version: Version, today: dt.date) -> int:
    """Put the season and the plan of a version in force, as an action that can be taken back.

    What was done, who was there and what was tested stay, and so does the plan of weeks that are
    over: the past is no matter of versions.
    """
    seen = folder.now()
    with opened(folder.history) as history:
        state = _goal(folder, history, version.id, today)
    facts = set(folder.kept()) - set(folder.deciding())
    changes = {name: data for name, data in state.items() if name not in facts}
    words = f"version {version.id}{f' ({version.name})' if version.name else ''}"
    return commit(folder, Action("restore", words), changes, seen)


# --- the write ------------------------------------------------------------------------------


def _written(folder: Folder) -> int:
    """Write what was noted; whatever ends this on the way, the next command goes on with it."""
    with opened(folder.history) as history:
        finish(folder, history)
        number = history.current()
    assert number is not None
    return number


def _put(path: Path, data: bytes | None) -> None:
    if data is not None:
        path.parent.mkdir(exist_ok=True)
        write_bytes(path, data)
    elif path.exists():
        path.unlink()


def _check(folder: Folder, expected: State, now: State, do: str) -> None:
    for name, data in expected.items():
        if now.get(name) != data:
            shown = difference(name, data, now.get(name))
            raise ChangedMeanwhileError(folder.path / name, shown, do)


def _keep_by_hand(history: History, now: State) -> None:
    """Keep what people have changed in the files since the last action."""
    current = history.current()
    stood = {} if current is None else history.state(current)
    changed = [name for name, data in now.items() if stood.get(name) != data]
    if changed:
        history.stands(history.add(now, BY_HAND, ", ".join(changed), changed))


def _last_action(history: History) -> Version | None:
    """Return the last version that a command made, of those that led to the current one."""
    number = history.current()
    while number is not None:
        version = history.version(number)
        if version is None or version.action not in (BY_HAND, FOUND):
            return version
        number = version.parent
    return None


def _turn(folder: Folder, history: History, version: Version, there: State, goal: State) -> None:
    """Note that the files of a version go from one state to another."""
    names = list(version.touched)
    now = folder.now(names)
    do = "Put it back as it was, or restore a version with `seasonwright versions`."
    _check(folder, {name: there.get(name) for name in names}, now, do)
    history.begin(now, {name: goal.get(name) for name in names}, version.id)


def _stand_after(history: History, number: int) -> None:
    """Say which version stands once what is noted has been written."""
    pending = history.pending()
    assert pending is not None
    history.begin(pending.before, pending.after, number)
