"""Records of what was done, added to a season folder's file."""

import datetime as dt
from collections.abc import Mapping, Sequence
from pathlib import Path

from cli.files.errors import InputError
from cli.files.known_keys import nearest
from cli.files.logged_sets import check_logged
from cli.files.own_work import read_library
from cli.files.scenario_file import Loaded
from cli.season.by_group import athletes_by_group, group_of, strangers
from cli.season.commit import Action, commit
from cli.season.done_csv import added, done_in, sessions_of
from cli.season.folder import DONE, Folder
from cli.season.whole_sessions import shared_out
from optimiser.progress.done_session import DoneSession


def record(
    folder: Folder, loaded: Loaded, cells: Mapping[str, str], day: dt.date, source: str
) -> None:
    """Add one record, given as the cells of a row by column.

    Parameters
    ----------
    day
        The day it is.
    source
        Where the cells come from, for messages.

    Raises
    ------
    InputError
        If a cell cannot be used, or the day is not over.
    """
    made = sessions_of(Path(source), [("", dict(cells))], loaded.season, day, whole=True)
    check_logged(Path(source), made, read_library(loaded).exercises)
    _check_known(loaded, made[0].who, source)
    add_records(folder, loaded, shared_out(loaded, made, Path(source)), _words(made[0]), day)


def _check_known(loaded: Loaded, who: str, source: str) -> None:
    """Refuse a record of somebody whom the squad file does not list."""
    if not strangers(loaded, [who]):
        return
    names = [name for each in athletes_by_group(loaded).values() for name in each]
    close = {name.casefold(): name for name in names}.get(nearest(who, group_of(loaded)) or "")
    do = f"did you mean {close}?" if close else f"add them to {loaded.scenario.squad_file}"
    must = "must be squad, a group or an athlete of the squad file"
    raise InputError(Path(source), "who", must, who, do)


def add_records(
    folder: Folder, loaded: Loaded, made: Sequence[DoneSession], words: str, day: dt.date
) -> None:
    """Write records below what stands in the file at this moment."""
    stands = folder.now([DONE])
    data = stands[DONE] or b""
    try:
        text = added(data.decode("utf-8-sig"), made)
    except UnicodeDecodeError:
        do = "save it again with the encoding UTF-8"
        raise InputError(folder.done, "", "must be text in UTF-8", "another", do) from None
    done_in(folder.done, text, loaded.season, day)  # nothing is written that cannot be read
    mark = b"\xef\xbb\xbf" if data.startswith(b"\xef\xbb\xbf") else b""
    commit(folder, Action("done", words), {DONE: mark + text.encode("utf-8")}, stands)


def _words(session: DoneSession) -> str:
    told = session.model_dump(mode="json", exclude_none=True, exclude={"date", "who", "what"})
    numbers = {name: f"{v:g}" if isinstance(v, float) else str(v) for name, v in told.items()}
    amounts = ", ".join(f"{name} {value}" for name, value in numbers.items() if value)
    return f"{session.date} {session.who} {session.what}: {amounts}"
