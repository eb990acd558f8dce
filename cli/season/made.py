"""A new season folder: its first files and the first state of its history, all of it or nothing."""

import os
from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from cli.files.errors import InputError
from cli.season.commit import begin
from cli.season.done_csv import COLUMNS
from cli.season.folder import AVAILABILITY, DONE, SCENARIO, SQUAD, TESTS, Folder
from cli.season.left_over import remove_left_over, sign

#: First lines of the files people fill in.
HEADS = {
    DONE: f"{','.join(COLUMNS)}\n",
    SQUAD: "name,group,body_mass_kg\n",
    TESTS: "athlete,date,test,value\n",
    AVAILABILITY: "athlete,from,to,status,stage,limits,words\n",
}


def make_folder(path: Path, scenario: str, fixtures: tuple[str, bytes] | None) -> Folder:
    """Write the files of a new season folder.

    Parameters
    ----------
    scenario
        Text of the scenario.
    fixtures
        Name and bytes of the fixtures file, if the scenario names one.

    Raises
    ------
    InputError
        If the folder cannot be made.
    """
    first = {SCENARIO: scenario.encode("utf-8"), **dict([fixtures] if fixtures else [])}
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.is_dir():
            return _made_among_others(Folder(path), first, fixtures)
        _made_beside(path, first)
    except OSError as error:
        raise InputError.from_os(path, error) from None
    return Folder(path)


def _made_beside(path: Path, first: Mapping[str, bytes]) -> None:
    """Make a folder whole under another name, then give it its own in one step."""
    remove_left_over(path.parent, _prefix(path), path.name)
    with TemporaryDirectory(prefix=_prefix(path), dir=path.parent) as beside:
        sign(Path(beside))
        folder = Folder(Path(beside) / path.name)
        folder.path.mkdir()
        begin(folder, {**_heads(), **first})
        os.replace(folder.path, path)


def _prefix(path: Path) -> str:
    return f".{path.name[:40]}."


def _made_among_others(
    folder: Folder, first: Mapping[str, bytes], fixtures: tuple[str, bytes] | None
) -> Folder:
    """Make a season where somebody keeps files: those that are there stay as they are."""
    if fixtures:
        _check_free(folder.path / fixtures[0], fixtures[1])
    heads = {name: head for name, head in _heads().items() if not (folder.path / name).exists()}
    begin(folder, {**heads, **first})
    return folder


def _heads() -> dict[str, bytes]:
    return {name: head.encode("utf-8") for name, head in HEADS.items()}


def _check_free(path: Path, data: bytes) -> None:
    """Refuse to write over a list that somebody keeps in the folder.

    Raises
    ------
    InputError
        If there is another one.
    """
    try:
        other = path.exists() and path.read_bytes() != data
    except OSError as error:
        raise InputError.from_os(path, error) from None
    if other:
        do = f"name that one with --fixtures {path}, move it, or name another folder"
        raise InputError(path, "", "must not be another list than the one given", "one", do)
