"""Every applied state of a season folder, in one SQLite file of the standard library.

A state is the bytes of all kept files. What is about to be written is noted first, in one
transaction, so that a write that was broken off at any moment is finished by whoever opens the
folder next.
"""

import datetime as dt
import hashlib
import json
import sqlite3
import zlib
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from cli.files.errors import InputError

#: Seconds to wait for another command that writes.
PATIENCE = 10.0
TABLES = """
CREATE TABLE IF NOT EXISTS blob (hash TEXT PRIMARY KEY, data BLOB NOT NULL);
CREATE TABLE IF NOT EXISTS version (
    id INTEGER PRIMARY KEY, parent INTEGER, at TEXT NOT NULL, action TEXT NOT NULL,
    words TEXT NOT NULL, name TEXT NOT NULL DEFAULT '', touched TEXT NOT NULL
);
CREATE TABLE IF NOT EXISTS entry (
    version INTEGER NOT NULL, file TEXT NOT NULL, hash TEXT, PRIMARY KEY (version, file)
);
CREATE TABLE IF NOT EXISTS state (key TEXT PRIMARY KEY, value TEXT NOT NULL);
"""
State = Mapping[str, bytes | None]


@dataclass(frozen=True)
class Version:
    """One applied state.

    Parameters
    ----------
    parent
        The version it came from; None for the first.
    action
        The command that made it; `BY_HAND` for what people changed in the files themselves.
    touched
        Names of the files that changed.
    """

    id: int
    parent: int | None
    at: str
    action: str
    words: str
    name: str
    touched: tuple[str, ...]


@dataclass(frozen=True)
class Pending:
    """A write that was begun: for each file what stood there, what shall, and the version then."""

    before: dict[str, bytes | None]
    after: dict[str, bytes | None]
    version: int


BY_HAND = "by hand"


class History:
    """The history of one folder, open for one transaction at a time."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._db = connection

    def current(self) -> int | None:
        """Return the version that stands, or None before the first."""
        found = self._get("current")
        return None if found is None else int(found)

    def version(self, number: int) -> Version | None:
        """Return one version, or None if there is none of that number."""
        rows = self._versions("WHERE id = ?", (number,))
        return rows[0] if rows else None

    def versions(self) -> list[Version]:
        """Return every version, oldest first."""
        return self._versions("", ())

    def _versions(self, where: str, values: tuple[object, ...]) -> list[Version]:
        columns = "id, parent, at, action, words, name, touched"
        sql = f"SELECT {columns} FROM version {where} ORDER BY id"
        found = self._db.execute(sql, values).fetchall()
        return [
            Version(number, parent, at, action, words, name, tuple(json.loads(touched)))
            for number, parent, at, action, words, name, touched in found
        ]

    def state(self, number: int) -> dict[str, bytes | None]:
        """Return the files of one version."""
        rows = self._db.execute("SELECT file, hash FROM entry WHERE version = ?", (number,))
        return {file: self._bytes(digest) for file, digest in rows.fetchall()}

    def add(self, state: State, action: str, words: str, touched: list[str]) -> int:
        """Keep a state as a version that follows the current one, and return its number."""
        return self._add(self.current(), state, action, words, touched)

    def add_like(self, version: Version, state: State) -> int:
        """Keep a state that stands where another version stood, and return its number."""
        touched = list(version.touched)
        return self._add(version.parent, state, version.action, version.words, touched)

    def _add(
        self, parent: int | None, state: State, action: str, words: str, touched: list[str]
    ) -> int:
        at = dt.datetime.now(dt.UTC).isoformat(timespec="seconds")
        row = (parent, at, action, words, json.dumps(sorted(touched)))
        sql = "INSERT INTO version (parent, at, action, words, touched) VALUES (?, ?, ?, ?, ?)"
        number = self._db.execute(sql, row).lastrowid
        assert number is not None
        for file, data in state.items():
            entry = (number, file, None if data is None else self._keep(data))
            self._db.execute("INSERT INTO entry VALUES (?, ?, ?)", entry)
        return number

    def stands(self, number: int) -> None:
        """Say which version stands now; nothing is pending then."""
        self._put("current", str(number))
        self._db.execute("DELETE FROM state WHERE key = 'pending'")

    def rename(self, number: int, name: str) -> None:
        """Give a version a name."""
        self._db.execute("UPDATE version SET name = ? WHERE id = ?", (name, number))

    def begin(self, before: State, after: State, version: int) -> None:
        """Note what is about to be written."""
        files = {
            name: [self._hash(before.get(name)), self._hash(data)] for name, data in after.items()
        }
        self._put("pending", json.dumps({"files": files, "version": version}))

    def pending(self) -> Pending | None:
        """Return the write that was begun and not ended, if there is one."""
        found = self._get("pending")
        if found is None:
            return None
        told = json.loads(found)
        pairs = {name: tuple(map(self._bytes, pair)) for name, pair in told["files"].items()}
        before = {name: pair[0] for name, pair in pairs.items()}
        return Pending(before, {n: pair[1] for n, pair in pairs.items()}, told["version"])

    def note(self, key: str) -> str | None:
        """Return something small that was kept, by its key."""
        return self._get(f"note.{key}")

    def put_note(self, key: str, value: str) -> None:
        """Keep something small."""
        self._put(f"note.{key}", value)

    def _hash(self, data: bytes | None) -> str | None:
        return None if data is None else self._keep(data)

    def _keep(self, data: bytes) -> str:
        digest = hashlib.sha256(data).hexdigest()
        row = (digest, zlib.compress(data))
        self._db.execute("INSERT OR IGNORE INTO blob VALUES (?, ?)", row)
        return digest

    def _bytes(self, digest: str | None) -> bytes | None:
        if digest is None:
            return None
        row = self._db.execute("SELECT data FROM blob WHERE hash = ?", (digest,)).fetchone()
        return zlib.decompress(row[0])

    def _get(self, key: str) -> str | None:
        row = self._db.execute("SELECT value FROM state WHERE key = ?", (key,)).fetchone()
        return None if row is None else str(row[0])

    def _put(self, key: str, value: str) -> None:
        self._db.execute("INSERT OR REPLACE INTO state VALUES (?, ?)", (key, value))


@contextmanager
def opened(path: Path) -> Iterator[History]:
    """Open the history in ``path`` for one transaction; it is undone where an error is raised.

    Raises
    ------
    InputError
        If the file cannot be used, or another command has been writing for long.
    """
    try:
        with closing(sqlite3.connect(path, timeout=PATIENCE, isolation_level=None)) as connection:
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("BEGIN IMMEDIATE")
            for statement in filter(str.strip, TABLES.split(";")):
                connection.execute(statement)
            try:
                yield History(connection)
            except BaseException:
                connection.execute("ROLLBACK")
                raise
            connection.execute("COMMIT")
    except sqlite3.Error as error:
        must = "must be the history of a season folder, and free to be written"
        do = "let the other command end, or restore the file from a copy"
        raise InputError(path, "", must, str(error), do) from None
