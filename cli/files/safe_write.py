"""Write a file whole or not at all."""

import os
import tempfile
from contextlib import suppress
from pathlib import Path

from cli.files.errors import InputError


def write_text(path: Path, text: str) -> None:
    """Write ``text`` to ``path`` in UTF-8; see :func:`write_bytes`."""
    write_bytes(path, text.encode("utf-8"))


def make_directory(path: Path) -> None:
    """Make a folder, and those it is in, if it is not there.

    Raises
    ------
    InputError
        If it cannot be made.
    """
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError.from_os(path, error) from None


def check_writable(path: Path) -> None:
    """Refuse a place that could not be written to, before there is work to lose.

    Raises
    ------
    InputError
        If the folder is missing, or does not let a file be made in it.
    """
    if _is_no_file(path):
        return
    folder = path.resolve().parent
    do = "make the folder first or name another file"
    if not folder.is_dir():
        raise InputError(path, "", "must be in a folder that is there", str(path.parent), do)
    if path.is_dir():
        raise InputError(path, "", "must be a file", "a folder of that name", "name another file")
    if not os.access(folder, os.W_OK):
        must = "must be in a folder that can be written to"
        raise InputError(path, "", must, str(path.parent), "name another folder")


def write_bytes(path: Path, data: bytes) -> None:
    """Write ``data`` beside ``path`` and then rename it, so no half-written file is ever seen.

    What is there and is no file, such as a device or a pipe, is written to and not replaced.

    Raises
    ------
    InputError
        If the folder is missing or the file cannot be written.
    """
    try:
        if _is_no_file(path):
            path.write_bytes(data)
        else:
            _write(path.resolve(), data)
    except OSError as error:
        said = (error.strerror or str(error)).lower()
        raise InputError(
            path,
            "",
            "must be a place that can be written to",
            said,
            "make the folder first or name another file",
        ) from None


def _is_no_file(path: Path) -> bool:
    """Tell whether there is something that is neither file nor folder, such as a device or pipe."""
    return path.exists() and not path.is_file() and not path.is_dir()


def _write(path: Path, data: bytes) -> None:
    if path.is_dir():
        raise IsADirectoryError(0, "a folder of that name")
    handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:40]}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(beside, _mode(path))
        os.replace(beside, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise


def _mode(path: Path) -> int:
    if path.exists():
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
