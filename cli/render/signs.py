"""Signs for doses and matches: rich where the terminal can show them, plain where it cannot."""

from typing import NamedTuple

from optimiser.domain.fixture import Priority

LETTER = {Priority.PEAK: "P", Priority.HIGH: "H", Priority.MEDIUM: "M", Priority.LOW: "L"}
#: Drawn where any sign can be.
MATCH_SIGNS = {
    Priority.PEAK: "\u2605",
    Priority.HIGH: "\u25c6",
    Priority.MEDIUM: "\u25b2",
    Priority.LOW: "\u25cb",
}
DOSES = ("none", "touch", "reduced", "full")


class Signs(NamedTuple):
    """How a dose is drawn.

    Parameters
    ----------
    doses
        By dose, from none to full.
    short
        The same in one sign, for tables with many qualities.
    """

    doses: dict[str, str]
    short: dict[str, str]


RICH = Signs(
    dict(zip(DOSES, ("▯▯▯", "▮▯▯", "▮▮▯", "▮▮▮"), strict=True)),
    dict(zip(DOSES, ("·", "▂", "▅", "█"), strict=True)),
)
PLAIN = Signs(
    dict(zip(DOSES, ("---", "#--", "##-", "###"), strict=True)),
    dict(zip(DOSES, (".", "1", "2", "3"), strict=True)),
)


def signs_for(encoding: str | None, *, plain: bool = False) -> Signs:
    """Return the signs that ``encoding`` can carry."""
    if plain:
        return PLAIN
    try:
        "".join([*RICH.doses.values(), *RICH.short.values()]).encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return PLAIN
    return RICH
