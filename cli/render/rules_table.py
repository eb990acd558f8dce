"""The catalogue of rules as text and as JSON."""

import json
from collections.abc import Mapping
from typing import Any

from cli.files.known_keys import known_keys
from cli.render.doc_text import details, parameters, summary
from cli.render.terminal import WIDTH, filled, table_text
from optimiser.rule import Rule

#: Parameters every rule has.
COMMON = ("price", "waive")
HOW = (
    "Change a default in the scenario under [rules.NAME]; leave a rule out with use = false. With\n"
    "price = N a rule may be broken at a cost of N a unit; without, it must hold. ! marks rules\n"
    "that keep people safe. `seasonwright rules NAME` tells all about one."
)

Kinds = Mapping[str, type[Rule]]


def rules_table(kinds: Kinds) -> str:
    """Return every rule: what it says with its defaults, and its parameters."""
    rows = [
        [f"{name}{' !' if kind.safety else ''}", "\n".join(_lines(kind))]
        for name, kind in kinds.items()
    ]
    table = table_text(
        rows, ["Rule", "What it says, and its parameters"], lined=True, widths=[None, WIDTH - 17]
    )
    return f"{table}\n\n{HOW}"


def _lines(kind: type[Rule]) -> list[str]:
    told = [kind().words(), _defaults(kind), f"Source: {kind.sources}."]
    return [line for line in told if line]


def rule_text(kind: type[Rule]) -> str:
    """Return all about one rule."""
    safe = "\nIt keeps people safe: change it only with a reason." if kind.safety else ""
    more = details(kind)
    parts = [
        f"{kind.name}: {summary(kind)}{safe}",
        filled(more) if more else "",
        filled(f"With its defaults: {kind().words()}"),
        _parameters(kind),
        f"In a scenario, with the defaults:\n{_example(kind)}",
        f"Excess is counted in {kind.unit}.",
        filled(f"Source: {kind.sources}."),
    ]
    return "\n\n".join(part for part in parts if part)


def rules_json(kinds: Kinds) -> str:
    """Return rules as JSON, two blanks deep."""
    return json.dumps([_plain(kind) for kind in kinds.values()], indent=2, ensure_ascii=True)


def _plain(kind: type[Rule]) -> dict[str, Any]:
    told = parameters(kind)
    return {
        "name": kind.name,
        "summary": summary(kind),
        "words": kind().words(),
        "safety": kind.safety,
        "unit": kind.unit,
        "parameters": [
            {"name": name, "default": value, "about": told.get(name, "")}
            for name, value in _values(kind).items()
        ],
        "source": kind.sources,
    }


def _values(kind: type[Rule]) -> dict[str, Any]:
    """Return the defaults of a rule's own parameters."""
    return kind().model_dump(mode="json", exclude=set(COMMON))


def _defaults(kind: type[Rule]) -> str:
    return "; ".join(_set_to(name, value) for name, value in _values(kind).items())


def _set_to(name: str, value: Any) -> str:
    return f"{name} left out" if value is None else f"{name} = {toml_value(value)}"


def _parameters(kind: type[Rule]) -> str:
    told, lines = parameters(kind), []
    for name, value in _values(kind).items():
        lines.append(filled(_set_to(name, value), "  ", "  "))
        if told.get(name):
            lines.append(filled(told[name], "      ", "      "))
        keys = known_keys(kind, [name])
        if keys:
            lines.append(filled(f"Keys: {', '.join(sorted(keys))}.", "      ", "      "))
    return "\n".join(["Parameters and defaults:", *lines]) if lines else "It has no parameters."


def _example(kind: type[Rule]) -> str:
    lines = [
        f"# {_set_to(name, value)}" if value is None else _set_to(name, value)
        for name, value in _values(kind).items()
    ]
    return "\n".join(f"  {line}" for line in (f"[rules.{kind.name}]", *lines))


def toml_value(value: Any) -> str:
    """Return a plain value as TOML writes it."""
    if isinstance(value, dict):
        inside = ", ".join(f"{key} = {toml_value(item)}" for key, item in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    if isinstance(value, list):
        return f"[{', '.join(map(toml_value, value))}]"
    return json.dumps(value, ensure_ascii=False)
