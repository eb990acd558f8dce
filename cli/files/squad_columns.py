"""The columns of a squad file."""

import re
from collections.abc import Collection, Sequence
from pathlib import Path

from cli.files.csv_head import read_head
from cli.files.errors import InputError
from cli.files.known_keys import nearest

NEEDED = ("name", "group", "body_mass_kg")
FIXED = (
    *NEEDED,
    "age",
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


def read_columns(path: Path, header: list[str], exercises: Collection[str]) -> list[str]:
    """Return the names in the first line.

    Raises
    ------
    InputError
        If one is unknown or twice there, or one that must be there is not.
    """

    def unknown(name: str) -> InputError | None:
        return None if _known(name, exercises) else _unknown(path, name, exercises)

    return read_head(path, header, NEEDED, unknown)


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


def _unknown(path: Path, name: str, exercises: Collection[str]) -> InputError:
    tests = [f"{key}_{what}" for key in exercises for what in ("1rm_kg", "load_kg", "reps")]
    close = nearest(name, [*FIXED, *tests, "split_10_m_s", "sled_20_loss_pct"])
    return InputError(
        path,
        "line 1",
        "columns must be among those of a squad file",
        f'"{name}"' if name else "a column without a name",
        f"did you mean {close}? otherwise take it out" if close else "take the column out",
    )
