"""Edits given as options: ``--move 2026-10-03=2026-10-06`` and its like."""

import datetime as dt
import tomllib
from collections.abc import Callable, Iterator, Sequence
from typing import Any

import click
from pydantic import TypeAdapter, ValidationError

from cli.files.changes_file import GivenChanges, Origin
from cli.files.errors import plain_must
from cli.files.fixtures_places import opponent_and_place
from cli.options import Command, with_options
from optimiser.domain.changes import Changes
from optimiser.domain.edits import Edit

EDIT: TypeAdapter[Any] = TypeAdapter(Edit)
#: Name of changes that came as options.
BY_OPTIONS = "changed"


def edit_options(command: Command) -> Command:
    """Add one option a kind of edit; all of them together make one set of changes."""
    options = [
        click.option(f"--{name}", f"edit_{name}", multiple=True, metavar=form, help=about)
        for name, (form, about, _) in FORMS.items()
    ]
    return with_options(options, command)


def edits_of(given: dict[str, Any]) -> GivenChanges | None:
    """Take the edits out of a command's options; None if there are none.

    Raises
    ------
    click.BadParameter
        If one cannot be read.
    """
    edits: list[Edit] = []
    labels: list[str] = []
    for name in FORMS:
        for text in given.pop(f"edit_{name}"):
            edits.append(_edit(name, text))
            labels.append(f"--{name} {text}")
    if not edits:
        return None
    changes = Changes(name=BY_OPTIONS, edits=tuple(edits))
    return GivenChanges(changes, Origin("options", labels=tuple(labels)))


def _edit(name: str, text: str) -> Edit:
    form, _, parse = FORMS[name]
    try:
        made: Edit = EDIT.validate_python(parse(text))
    except ValidationError as error:
        said = error.errors(include_url=False)[0]
        place = ".".join(str(part) for part in said["loc"][1:])
        message = plain_must(said["msg"].removeprefix("Value error, "))
        raise click.BadParameter(
            f"{text!r}: {place + ': ' if place else ''}{message}; write {form}",
            param_hint=f"--{name}",
        ) from None
    except ValueError as error:
        raise click.BadParameter(
            f"must be {form} (got {text!r}): {error}", param_hint=f"--{name}"
        ) from None
    return made


def _date(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        raise ValueError(f"{text!r} is not a date such as 2026-10-03") from None


def _halves(text: str, sign: str) -> tuple[str, str]:
    before, found, after = text.partition(sign)
    if not found or not before.strip() or not after.strip():
        raise ValueError(f"there is no {sign!r} with something on both sides")
    return before.strip(), after.strip()


def _move(text: str) -> dict[str, Any]:
    date, to = _halves(text, "=")
    return {"edit": "move", "date": _date(date), "to": _date(to)}


def _add(text: str) -> dict[str, Any]:
    date, *rest = text.split(":", 2)
    found: dict[str, Any] = {"edit": "add", "date": _date(date)}
    if rest:
        found["priority"] = rest[0].strip().lower()
    if len(rest) > 1:
        found["opponent"] = opponent_and_place(rest[1])[0]
    return found


def _rank(text: str) -> dict[str, Any]:
    date, priority = _halves(text, "=")
    return {"edit": "rank", "date": _date(date), "priority": priority.lower()}


def _days(kind: str) -> Callable[[str], dict[str, Any]]:
    def parse(text: str) -> dict[str, Any]:
        first, _, last = text.partition(":")
        return {"edit": kind, "first": _date(first), "last": _date(last or first)}

    return parse


def _set(text: str) -> dict[str, Any]:
    place, value = _halves(text, "=")
    rule, parameter = _halves(place, ".")
    return {"edit": "set", "rule": rule, "parameter": parameter, "value": read_value(value)}


def read_value(text: str) -> Any:
    """Return what ``text`` means in TOML; a bare word is text."""
    try:
        return tomllib.loads(f"value = {text}")["value"]
    except tomllib.TOMLDecodeError:
        return text


def _pin(text: str) -> dict[str, Any]:
    parts = [part.strip() for part in text.split(":")]
    if len(parts) not in (3, 4):
        raise ValueError("there must be three or four parts")
    if not parts[0].isdigit():
        raise ValueError(f"{parts[0]!r} is not a week, counted from 1")
    found: dict[str, Any] = {"edit": "pin", "week": int(parts[0]), "quality": parts[1]}
    if parts[2]:
        found["band"] = int(parts[2]) if parts[2].isdigit() else parts[2]
    if len(parts) == 4 and parts[3]:
        found["dose"] = parts[3].lower()
    return found


def _named(kind: str) -> Callable[[str], dict[str, Any]]:
    return lambda text: {"edit": kind, "rule": text.strip()}


FORMS: dict[str, tuple[str, str, Callable[[str], dict[str, Any]]]] = {
    "move": ("DATE=DATE", "Play a fixture on another day.", _move),
    "add": ("DATE[:PRIORITY[:OPPONENT]]", "Add a fixture.", _add),
    "drop": (
        "DATE",
        "Take a fixture out.",
        lambda text: {"edit": "drop", "date": _date(text)},
    ),
    "rank": ("DATE=PRIORITY", "Make a fixture high, medium or low.", _rank),
    "close": ("FIRST[:LAST]", "Allow no training on these days.", _days("close")),
    "open": ("FIRST[:LAST]", "Take rest and exams off these days.", _days("open")),
    "set": ("RULE.PARAMETER=VALUE", "Give a rule's parameter another value.", _set),
    "without": ("RULE", "Drop a rule.", _named("drop_rule")),
    "with": ("RULE", "Use a rule that the scenario drops.", _named("add_rule")),
    "pin": (
        "WEEK:QUALITY:BAND[:DOSE]",
        "Decide one choice; band is a code or a rung, and may be empty.",
        _pin,
    ),
}


def all_changes(
    files: Sequence[GivenChanges], options: GivenChanges | None
) -> Iterator[GivenChanges]:
    """Yield the changes to look at; names that come twice get a number."""
    seen: dict[str, int] = {}
    for given in [*files, *([options] if options else [])]:
        name = given.changes.name
        seen[name] = seen.get(name, 0) + 1
        if seen[name] > 1:
            changes = given.changes.model_copy(update={"name": f"{name} ({seen[name]})"})
            given = GivenChanges(changes, given.origin)
        yield given
