"""The seasons of a directory, and the demo seasons, to be opened from the page."""

import datetime as dt
import shutil
import tomllib
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

from cli.files.errors import InputError
from cli.files.read_text import read_text
from cli.render.clean_text import clean
from cli.season.commit import open_folder
from cli.season.folder import SCENARIO, Folder
from cli.serve.drafting import safe_name

#: Seasons shown at most, newest first, and folders looked into.
MOST, LOOKED = 40, 400
ROOT = Path(__file__).resolve().parents[2]


def demo_folder() -> Path | None:
    """Return where the demo seasons are: in the package, or in a clone; None without them."""
    for place in (Path(__file__).resolve().parents[1] / "scenarios", ROOT / "scenarios"):
        if (place / "minimal.toml").is_file():
            return place
    return None


def seasons(where: Path) -> list[dict[str, Any]]:
    """Return the seasons in a directory, those changed last first."""
    found = [row for path in _scenarios(where) if (row := _season(path, where)) is not None]
    return sorted(found, key=lambda row: str(row["changed"]), reverse=True)[:MOST]


def demos() -> list[dict[str, Any]]:
    """Return the demo seasons, those with a plan first."""
    folder = demo_folder()
    paths = [] if folder is None else sorted(folder.glob("*.toml"))
    rows = [row for path in paths if (row := _season(path, path.parent)) is not None]
    return sorted(rows, key=lambda row: (row["path"] == "impossible.toml", row["weeks"]))


def copied_demo(name: str, where: Path) -> Path:
    """Copy a demo season into a season folder, and return its scenario.

    Raises
    ------
    InputError
        If there is no such demo season.
    """
    folder = demo_folder()
    path = None if folder is None else folder / f"{safe_name(Path(name).stem, '')}.toml"
    if path is None or not path.is_file():
        raise InputError(name, "", "must be a demo season", "none of that name", "choose another")
    place = _free(where, path.stem)
    place.mkdir(parents=True)
    shutil.copy(path, place / SCENARIO)
    for key in ("fixtures_file", "squad_file"):
        beside = tomllib.loads(read_text(path)).get(key)
        if isinstance(beside, str) and (path.parent / beside).is_file():
            shutil.copy(path.parent / beside, place / beside)
    return open_folder(place).scenario


def _free(where: Path, stem: str) -> Path:
    names = (f"{stem}{'' if n == 1 else f' {n}'}" for n in range(1, 1000))
    return next(where / name for name in names if not (where / name).exists())


def _scenarios(where: Path) -> Iterator[Path]:
    """Yield the scenario files of a directory and of the season folders in it."""
    with suppress(OSError):
        for at, path in enumerate(sorted(where.iterdir())):
            if at > LOOKED:
                return
            if path.is_dir() and (path / SCENARIO).is_file():
                yield path / SCENARIO
            elif path.suffix.lower() == ".toml" and path.is_file():
                yield path


def _season(path: Path, where: Path) -> dict[str, Any] | None:
    """Return what a season is, from its file alone; None if it is no season."""
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError):
        return None
    if not {"name", "first_monday", "weeks"} <= table.keys():
        return None
    folder = Folder(path.parent) if path.name == SCENARIO else None
    changed = dt.datetime.fromtimestamp(path.stat().st_mtime, dt.UTC)
    return {
        "path": path.relative_to(where).as_posix(),
        "name": clean(str(table["name"])),
        "sport": clean(str(table.get("sport", ""))),
        "first": str(table["first_monday"]),
        "weeks": table["weeks"],
        "folder": folder is not None,
        "planned": bool(folder and folder.plan.exists()) or path.with_suffix(".plan.json").exists(),
        "changed": changed.isoformat(timespec="minutes"),
    }
