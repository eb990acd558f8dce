"""Two states of a text file, set against each other for people."""

import difflib

#: Lines of a difference shown at most.
MOST = 24


def difference(name: str, before: bytes | None, after: bytes | None) -> str:
    """Return the lines that differ, those taken out with a minus and those put in with a plus."""
    was, now = _lines(before), _lines(after)
    heads = f"{name} (as it was)", f"{name} (now)"
    told = list(difflib.unified_diff(was, now, *heads, n=0, lineterm=""))
    shown = [line for line in told if not line.startswith("@@")]
    more = len(shown) - MOST
    return "\n".join([*shown[:MOST], *([f"... and {more} more lines"] if more > 0 else [])])


def _lines(data: bytes | None) -> list[str]:
    return [] if data is None else data.decode("utf-8", "replace").splitlines()
