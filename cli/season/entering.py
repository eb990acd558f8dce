"""Who may train from when, entered into a season folder's availability file."""

from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from cli.files.availability_file import COLUMNS, read_availability
from cli.files.errors import InputError
from cli.files.own_work import read_library, squad_at
from cli.files.rows_added import rows_added
from cli.files.safe_cell import safe_cell
from cli.files.scenario_file import Loaded
from cli.season.commit import Action, commit
from cli.season.folder import AVAILABILITY, Folder


def enter(folder: Folder, loaded: Loaded, cells: Mapping[str, str]) -> None:
    """Add one entry, given as the cells of a row by column, below what stands in the file.

    Raises
    ------
    InputError
        If there is no squad file, or the entry cannot be used; nothing is written then.
    """
    if loaded.scenario.squad_file is None:
        do = "name one in the scenario (squad_file)"
        raise InputError(folder.scenario, "squad_file", "must name the squad", "none", do)
    stands = folder.now([AVAILABILITY])
    data = stands[AVAILABILITY] or b""
    try:
        before = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        do = "save it again with the encoding UTF-8"
        where = folder.path / AVAILABILITY
        raise InputError(where, "", "must be text in UTF-8", "another", do) from None
    row = {name: str(safe_cell(cells[name])) for name in COLUMNS if cells.get(name)}
    text = rows_added(before, [row], COLUMNS)
    _check(folder, loaded, text)
    mark = b"\xef\xbb\xbf" if data.startswith(b"\xef\xbb\xbf") else b""
    words = ", ".join(cells[name] for name in ("athlete", "status", "from") if cells.get(name))
    commit(folder, Action("availability", words), {AVAILABILITY: mark + text.encode()}, stands)


def _check(folder: Folder, loaded: Loaded, text: str) -> None:
    """Read what is to be written; what cannot be read is told as of the file it would be in."""
    library = read_library(loaded)
    path = loaded.path.parent / str(loaded.scenario.squad_file)
    squad = squad_at(path, loaded)
    with TemporaryDirectory() as place:
        path = Path(place) / AVAILABILITY
        path.write_text(text, encoding="utf-8")
        try:
            read_availability(path, [athlete.name for athlete in squad.athletes], library.tags)
        except InputError as error:
            where = folder.path / AVAILABILITY
            raise InputError(where, error.where, error.must, error.got, error.do) from None
