"""The rules on the page: a sentence each, and the numbers in it with their bounds."""

import datetime as dt
from collections.abc import Iterator
from typing import Any, Literal, get_args, get_origin

from annotated_types import Ge, Gt, Le, Lt
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from cli.render.clean_text import clean
from cli.render.doc_text import parameters, summary
from cli.serve.rule_words import field_words, rule_title
from cli.serve.side import Side
from constraints import CATALOGUE
from optimiser.rule import Rule

#: Parameters that are not set with a number or a switch on the page.
NOT_HERE = ("price", "waive", "choices")


def rules_state(here: Side) -> list[dict[str, Any]]:
    """Return every rule of the catalogue, in use or not."""
    used = {rule.name: rule for rule in here.rules}
    return [_rule(name, kind, used.get(name)) for name, kind in CATALOGUE.items()]


def _rule(name: str, kind: type[Rule], used: Rule | None) -> dict[str, Any]:
    rule = used or kind()
    about = parameters(kind)
    return {
        "name": name,
        "title": rule_title(name),
        "about": clean(summary(kind)),
        "words": clean(rule.words()),
        "safety": kind.safety,
        "source": clean(kind.sources),
        "on": used is not None,
        "waived": len(rule.waive),
        "fields": list(_fields(rule, kind(), about)),
    }


def _fields(
    rule: BaseModel, usual: BaseModel, about: dict[str, str], above: str = ""
) -> Iterator[dict[str, Any]]:
    for name, info in type(rule).model_fields.items():
        if name in NOT_HERE and not above:
            continue
        value, default, path = getattr(rule, name), getattr(usual, name), f"{above}{name}"
        told = clean(about.get(name, ""))
        if isinstance(value, BaseModel) and not above:
            yield from _fields(value, default, about | parameters(type(value)), f"{name}.")
        elif isinstance(value, dict) and not above:
            yield from _entries(value, default, f"{name}.", told)
        elif (made := _field(value, info)) is not None:
            yield {
                "path": path,
                "label": field_words(path),
                "about": told,
                "usual": _plain(default),
            } | made


def _entries(
    values: dict[str, Any], usual: dict[str, Any], above: str, about: str
) -> Iterator[dict[str, Any]]:
    """Yield the entries of a table that are numbers."""
    for key, value in values.items():
        if isinstance(value, int | float) and not isinstance(value, bool):
            path = f"{above}{key}"
            default = usual.get(key, value)
            whole = isinstance(value, int)
            yield {
                "path": path, "label": field_words(path), "about": about, "usual": default,
                "kind": "number", "value": value, "least": 0, "most": None,
                "step": 1 if whole else "any",
            }  # fmt: skip


def _field(value: Any, info: FieldInfo) -> dict[str, Any] | None:
    """Return how one parameter is set; None if it is not set here."""
    if isinstance(value, bool):
        return {"kind": "switch", "value": value}
    if isinstance(value, int | float):
        low, high = _bounds(info)
        step = 1 if isinstance(value, int) else "any"
        return {"kind": "number", "value": value, "least": low, "most": high, "step": step}
    if isinstance(value, dt.time):
        return {"kind": "time", "value": f"{value:%H:%M}"}
    if get_origin(info.annotation) is Literal:
        return {"kind": "choice", "value": value, "choices": list(get_args(info.annotation))}
    if _numbers(value):
        return {"kind": "numbers", "value": list(value)}
    return None


def _numbers(value: Any) -> bool:
    """Tell whether a value is a short list of whole numbers."""
    return isinstance(value, tuple) and bool(value) and all(type(each) is int for each in value)


def _bounds(info: FieldInfo) -> tuple[float | None, float | None]:
    low: Any = next((m.ge for m in info.metadata if isinstance(m, Ge)), None)
    high: Any = next((m.le for m in info.metadata if isinstance(m, Le)), None)
    if low is None:
        low = next((m.gt for m in info.metadata if isinstance(m, Gt)), None)
    if high is None:
        high = next((m.lt for m in info.metadata if isinstance(m, Lt)), None)
    return low, high


def _plain(value: Any) -> Any:
    if isinstance(value, dt.time):
        return f"{value:%H:%M}"
    return list(value) if isinstance(value, tuple) else value
