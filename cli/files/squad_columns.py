"""The columns of a squad file."""

import re
from collections.abc import Collection, Sequence
from pathlib import Path

from cli.files.birth_dates import BORN
from cli.files.csv_head import check_names, plain_names
from cli.files.own_columns import MISSPELT, meant_for, misspelt

NEEDED = ("name", "group", "body_mass_kg")
FIXED = (
    *NEEDED,
    "age",
    *BORN,
    "under_18",
    "training_level",
    "height_cm",
    "restriction",
    "unavailable_from",
    "unavailable_to",
    "cleared",
    "plyometrics_ready",
)
LIFT = re.compile(r"(?P<key>[a-z][a-z0-9_]*?)_(?P<what>1rm_kg|load_kg|reps)")
SPLIT = re.compile(r"split_(?P<at>\d+(\.\d+)?)_m_s")
SLED = re.compile(r"sled_(?P<at>\d+(\.\d+)?)_loss_pct")


#: How the names of columns with a number in them look.
SAMPLES = ("split_10_m_s", "split_30_m_s", "sled_20_loss_pct")
#: The same for what is written like a test: a longer name has more that is right.
TEST_MISSPELT = 0.8


def read_columns(
    path: Path, header: list[str], exercises: Collection[str], where: str = "line 1"
) -> tuple[list[str], list[str]]:
    """Return the names in the first line, empty for a person's own columns, and those.

    Raises
    ------
    InputError
        If one is twice there or misspelt, or one that must be there is not.
    """
    names, own = plain_names(header), []
    tests = [f"{key}_{what}" for key in exercises for what in ("1rm_kg", "load_kg", "reps")]
    for at, name in enumerate(names):
        if name and not _known(name, exercises):
            alike = TEST_MISSPELT if LIFT.fullmatch(name) else MISSPELT
            if meant := misspelt(name, [*FIXED, *tests, *SAMPLES], names, alike):
                raise meant_for(path, name, meant, where)
            names[at] = ""
            own.append(header[at].strip())
    check_names(path, names, NEEDED, where)
    return names, own


def column_of_field(location: Sequence[str | int]) -> str:
    """Return the column that a field of an athlete, as pydantic names it, came from."""
    field, *rest = [str(part) for part in location] or [""]
    if field == "lifts" and rest:
        return "_".join(rest[:2]).replace("one_rm_kg", "1rm_kg")
    if field in ("splits", "sled_losses") and rest:
        at = f"{float(rest[0]):g}"
        return f"split_{at}_m_s" if field == "splits" else f"sled_{at}_loss_pct"
    return "restriction" if field == "restrictions" else field


def _known(name: str, exercises: Collection[str]) -> bool:
    lift = LIFT.fullmatch(name)
    tested = lift is not None and lift["key"] in exercises
    return name in FIXED or tested or bool(SPLIT.fullmatch(name) or SLED.fullmatch(name))
