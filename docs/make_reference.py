"""Write docs/scenario.md, docs/rules.md and docs/commands.md from the code itself.

Run ``python docs/make_reference.py``; a test fails when a page is no longer what this makes.
"""

import re
import sys
from collections.abc import Iterator
from enum import Enum
from pathlib import Path
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

import click  # noqa: E402
from pydantic import BaseModel  # noqa: E402
from pydantic.fields import FieldInfo  # noqa: E402

from cli.main import COMMANDS, main  # noqa: E402
from constraints import CATALOGUE  # noqa: E402
from optimiser.athlete.exercise import Exercise, Item  # noqa: E402
from optimiser.domain.quality import Quality  # noqa: E402
from optimiser.domain.scenario import Scenario  # noqa: E402
from optimiser.rule import Rule, Waiver  # noqa: E402

PLAIN = {"str": "text", "int": "whole number", "float": "number", "bool": "true or false"}
SCENARIO_HEAD = """# The scenario file

A TOML file. `name`, `first_monday` and `weeks` are needed, everything else has a default. Keys that
do not exist are refused with the nearest one that does. Made by `python docs/make_reference.py`
from the types that read the file.

What the tables hold that are given as `table`: `[qualities.KEY]` takes the keys of *Quality* below
(changes to a default ladder, or a ladder of your own), `[rules.NAME]` the parameters in
[rules.md](rules.md) and `use = false`, `[exercises.KEY]` those of *Exercise*, and
`[prescriptions.CODE]` lists of *Item*.
"""
RULES_HEAD = """# The rules

Every rule is on unless `use = false` stands in its table, `[rules.NAME]`. Each is checked twice, in
the solver's model and by an audit of the plan alone. Made by `python docs/make_reference.py` from
the catalogue; the sentence of each rule is what `seasonwright rules` prints at the defaults.

Every rule also takes `price` (cost of one unit of excess; left out, the rule must hold) and
`waive`, a list of places in which it gives way:

"""
COMMANDS_HEAD = """# The commands

Made by `python docs/make_reference.py` from the commands; `seasonwright COMMAND --help` says the
same. Results go to standard output, trouble to standard error.
"""


def scenario_page() -> str:
    """Return the page about the scenario file."""
    kinds = _kinds(Scenario, Quality, Exercise, Item)
    told = [f"## {kind.__name__}\n\n{_first(kind)}\n\n{_table(kind)}" for kind in kinds]
    return "\n".join([SCENARIO_HEAD, *told])


def rules_page() -> str:
    """Return the page about the rules."""
    parts = [RULES_HEAD + _table(Waiver)]
    for name, kind in CATALOGUE.items():
        safety = " Keeps people safe." if kind.safety else ""
        head = f"## {name}\n\n{kind().words()}{safety}\n\n{_first(kind)}\n"
        shared = Rule.model_fields
        own = {key: field for key, field in kind.model_fields.items() if key not in shared}
        table = "\n" + _table(kind, own) if own else ""
        parts.append(f"{head}{table}\nSources: {kind.sources}. Unit of excess: {kind.unit}.\n")
        parts += [f"### {each.__name__}\n\n{_table(each)}" for each in _inner(own.values())]
    return "\n".join(parts)


def commands_page() -> str:
    """Return the page about the commands."""
    parts = [COMMANDS_HEAD]
    for name in COMMANDS:
        command = main.get_command(click.Context(main), name)
        assert command is not None
        context = click.Context(
            command,
            info_name=f"seasonwright {name}",
            terminal_width=100,
            help_option_names=["-h", "--help"],
        )
        # click keeps the option of the first call, which may have been without -h
        command._help_option = None
        parts.append(f"## {name}\n\n```text\n{command.get_help(context)}\n```\n")
    return "\n".join(parts)


PAGES = {"scenario.md": scenario_page, "rules.md": rules_page, "commands.md": commands_page}


def _kinds(*firsts: type[BaseModel]) -> list[type[BaseModel]]:
    """Return the types of the file in the order in which one comes upon them."""
    found: list[type[BaseModel]] = []
    waiting = list(firsts)
    while waiting:
        kind = waiting.pop(0)
        if kind not in found:
            found.append(kind)
            waiting[:0] = _inner(kind.model_fields.values())
    return found


def _inner(fields: Any) -> list[type[BaseModel]]:
    found = {
        each: None
        for field in fields
        for each in _leaves(field.annotation)
        if isinstance(each, type) and issubclass(each, BaseModel)
    }
    return list(found)


def _leaves(kind: Any) -> Iterator[Any]:
    arguments = get_args(kind)
    if arguments and get_origin(kind) is not Literal:
        for each in arguments:
            yield from _leaves(each)
    else:
        yield kind


def _table(kind: type[BaseModel], fields: dict[str, FieldInfo] | None = None) -> str:
    told = _told(kind)
    rows = ["| key | what it takes | default | meaning |", "|---|---|---|---|"]
    for key, field in (kind.model_fields if fields is None else fields).items():
        cells = (f"`{key}`", _takes(field), _default(field), told.get(key, ""))
        rows.append("| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |")
    return "\n".join(rows) + "\n"


def _first(kind: type[Any]) -> str:
    """Return what a docstring says before its sections, on one line."""
    text = re.split(r"\n\s*(?:Parameters|Raises|References)\n\s*-+", kind.__doc__ or "")[0]
    return _plain(text)


def _told(kind: type[BaseModel]) -> dict[str, str]:
    """Return what the docstring says of each parameter, bases first."""
    told: dict[str, str] = {}
    for each in reversed(kind.__mro__):
        told |= _parameters(each.__doc__ or "")
    return told


def _parameters(text: str) -> dict[str, str]:
    section = re.search(r"\n\s*Parameters\n\s*-+\n(.*?)(?=\n\s*\w+\n\s*-{3,}|\Z)", text, re.S)
    if section is None:
        return {}
    told: dict[str, str] = {}
    names: list[str] = []
    margin = len(section[1]) - len(section[1].lstrip(" "))
    for line in section[1].splitlines():
        deep = len(line) - len(line.lstrip(" "))
        if line.strip() and deep == margin:
            names = [name.strip() for name in line.split(",")]
        elif line.strip():
            for name in names:
                told[name] = f"{told.get(name, '')} {line.strip()}".strip()
    return {name: _plain(words) for name, words in told.items()}


def _plain(text: str) -> str:
    text = re.sub(r":class:`~?(?:\w+\.)*(\w+)`", r"\1", text)
    return " ".join(text.replace("``", "`").split())


def _takes(field: FieldInfo) -> str:
    return f"{_words(field.annotation)}{_limits(field)}"


def _words(kind: Any) -> str:
    origin, inside = get_origin(kind), get_args(kind)
    if origin is Literal:
        return ", ".join(f'"{each}"' if each else '""' for each in inside)
    if origin in (Union, UnionType):
        return " or ".join(_words(each) for each in inside if each is not type(None))
    if origin in (tuple, list):
        return f"list of {_words(inside[0])}" if inside else "list"
    if origin is dict:
        return "table" if inside[1] is Any else f"{_words(inside[1])} by {_words(inside[0])}"
    if hasattr(kind, "__metadata__"):
        return _words(inside[0])
    if isinstance(kind, type) and issubclass(kind, Enum):
        return ", ".join(f'"{each.value}"' for each in kind)
    name = getattr(kind, "__name__", str(kind))
    return PLAIN.get(name, name if name[:1].isupper() else name.replace("_", " "))


def _limits(field: FieldInfo) -> str:
    signs = {"ge": "at least {}", "gt": "above {}", "le": "at most {}", "lt": "below {}"}
    signs |= {"max_length": "at most {} long"}
    found = [
        words.format(f"{getattr(each, name):,}".replace(",", " "))
        for each in field.metadata
        for name, words in signs.items()
        if getattr(each, name, None) is not None
    ]
    return f" ({', '.join(found)})" if found else ""


def _default(field: FieldInfo) -> str:
    if field.is_required():
        return "needed"
    value = field.get_default(call_default_factory=True, validated_data={})
    if isinstance(value, BaseModel) and not value.model_fields_set:
        return f"see {type(value).__name__}"
    return _value(value)


def _value(value: Any) -> str:
    if value is None or value in ("", (), {}):
        return "-"
    if isinstance(value, BaseModel):
        return ", ".join(f"{key} {_value(each)}" for key, each in value)
    if isinstance(value, dict):
        return ", ".join(f"{key} {_value(each)}" for key, each in value.items())
    if isinstance(value, tuple | list):
        return ", ".join(map(_value, value))
    if isinstance(value, bool):
        return str(value).lower()
    return str(value.value if isinstance(value, Enum) else value)


if __name__ == "__main__":
    for name, made in PAGES.items():
        (ROOT / "docs" / name).write_text(made(), encoding="utf-8")
