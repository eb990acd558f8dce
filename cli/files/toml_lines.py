"""Which line of a TOML file a key stands on."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

Path = tuple[str | int, ...]

HEADER = re.compile(r"^\s*(\[\[?)\s*([^\[\]]+?)\s*\]")
KEY = re.compile(r"""^\s*([\w"'.\s-]+?)\s*=""")


def line_of(text: str, path: Sequence[str | int]) -> int | None:
    """Return the line (from 1) of ``path`` or of the nearest table around it.

    A reading aid and no parser: a text with strings over several lines may mislead it.
    """
    places: dict[Path, int] = {}
    for found, number in _places(text):
        places.setdefault(found, number)
    for length in range(len(path), 0, -1):
        if tuple(path[:length]) in places:
            return places[tuple(path[:length])]
    return None


def _places(text: str) -> Iterator[tuple[Path, int]]:
    lists: Counter[Path] = Counter()
    table: Path = ()
    for number, line in enumerate(text.splitlines(), 1):
        header, key = HEADER.match(line), KEY.match(line)
        if header:
            table = _table(header, lists)
            yield table, number
        elif key:
            yield (*table, *_names(key[1])), number


def _table(header: re.Match[str], lists: "Counter[Path]") -> Path:
    *parents, last = _names(header[2])
    table: Path = ()
    for name in parents:
        table = (*table, name)
        if lists[table]:
            table = (*table, lists[table] - 1)
    table = (*table, last)
    if header[1] == "[[":
        lists[table] += 1
        table = (*table, lists[table] - 1)
    return table


def _names(written: str) -> list[str]:
    return [name.strip().strip("\"'") for name in written.split(".")]
