"""Read a small text file, or say why not."""

import codecs
from contextlib import suppress
from pathlib import Path

from cli.files.errors import InputError

MOST_BYTES = 5_000_000


def read_text(path: Path) -> str:
    """Return the text of ``path``, UTF-8 with or without a byte order mark.

    Raises
    ------
    InputError
        If it is missing, not a file, above 5 MB or not UTF-8.
    """
    data = read_bytes(path)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise InputError(
            path,
            f"line {line}",
            "must be text in UTF-8",
            f"byte 0x{data[error.start]:02x}, which is not",
            "save the file again with the encoding UTF-8",
        ) from None


def read_any_text(path: Path) -> str:
    """Return the text of ``path``, which a spreadsheet may have written.

    UTF-8, UTF-16 with a byte order mark, else windows-1252.

    Raises
    ------
    InputError
        If it is missing, not a file, above 5 MB or none of them.
    """
    data = read_bytes(path)
    marked = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    for encoding in ("utf-16",) if marked else ("utf-8-sig", "cp1252"):
        with suppress(UnicodeDecodeError):
            return data.decode(encoding)
    must = "must be text in UTF-8, UTF-16 or windows-1252"
    raise InputError(path, "", must, "something else", "save it again with the encoding UTF-8")


def read_bytes(path: Path) -> bytes:
    """Return the bytes of ``path``.

    Raises
    ------
    InputError
        If it is missing, not a file or above 5 MB.
    """
    try:
        if path.is_dir():
            raise InputError(path, "", "must be a file", "a folder", "name the file in it")
        if not path.exists():
            raise InputError(path, "", "must exist", "no such file", "check its name and folder")
        if path.is_fifo() and path.parts[:2] != ("/", "dev"):
            # reading would wait for somebody to write; the shell's own pipes lie under /dev
            raise InputError(path, "", "must be a file", "a named pipe", "save it as a file")
        size = path.stat().st_size
        if size > MOST_BYTES:
            raise InputError(
                path,
                "",
                f"must be at most {MOST_BYTES // 1_000_000} MB",
                f"{size / 1_000_000:.1f} MB",
                "check that it is the right file, or cut it down to this season",
            )
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise InputError.from_os(path, error) from None
    except ValueError:
        raise InputError(
            path, "", "must be a file name", "one with a null sign", "correct it"
        ) from None
    if len(data) > MOST_BYTES:
        raise InputError(
            path, "", f"must be at most {MOST_BYTES // 1_000_000} MB", "more", "name another file"
        )
    return data
