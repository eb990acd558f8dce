"""A new season folder: its first files and the first state of its history."""

from pathlib import Path

from cli.files.errors import InputError
from cli.files.safe_write import write_bytes, write_text
from cli.season.commit import open_folder
from cli.season.done_csv import COLUMNS
from cli.season.folder import AVAILABILITY, DONE, SCENARIO, SQUAD, TESTS, Folder

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
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError.from_os(path, error) from None
    if fixtures:
        _check_free(path / fixtures[0], fixtures[1])
        write_bytes(path / fixtures[0], fixtures[1])
    for name, head in HEADS.items():
        if not (path / name).exists():
            write_text(path / name, head)
    write_text(path / SCENARIO, scenario)
    return open_folder(path)


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
