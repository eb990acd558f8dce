"""How each parameter of a rule is set on the page: a number, a switch, a time, a list."""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum
from types import NoneType
from typing import Annotated, Any, Literal, get_args, get_origin

from annotated_types import Ge, Gt, Le, Lt, MaxLen, MinLen
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from cli.render.clean_text import clean
from cli.render.doc_text import parameters
from cli.render.rule_words import choice_label, parameter_label
from optimiser.rule import Rule

#: Parameters that are set elsewhere: prices, places let off, and choices held.
NOT_HERE = ("price", "waive", "choices")
#: Entries of a list at most, where its rule does not say.
LONGEST = 60


def rule_fields(
    rule: Rule, usual: Rule, about: Mapping[str, str], qualities: Sequence[str]
) -> list[dict[str, Any]]:
    """Return what can be set of a rule.

    Parameters
    ----------
    usual
        The same rule with all its defaults.
    about
        What its docstring says, by parameter.
    qualities
        Keys of the season's qualities, from which lists of names choose.
    """
    found: list[dict[str, Any]] = []
    for name, info in type(rule).model_fields.items():
        if name not in NOT_HERE:
            value, default = getattr(rule, name), getattr(usual, name)
            told = _about(about.get(name, ""))
            found += _told(rule.name, name, value, default, info, told, qualities)
    return found


def _about(words: str) -> str:
    """Return what a docstring says of a parameter, for people who see a switch and boxes."""
    told = clean(words).replace("False to ", "Off to ").replace("True if", "On if")
    return told.replace("[] for", "empty for")


def _told(
    rule: str,
    path: str,
    value: Any,
    usual: Any,
    info: FieldInfo,
    about: str,
    qualities: Sequence[str],
) -> Iterator[dict[str, Any]]:
    """Yield what is set of one parameter; of a table, of each of its entries."""
    if isinstance(value, BaseModel):
        inner = parameters(type(value))
        for name, each in type(value).model_fields.items():
            now, then = getattr(value, name), getattr(usual, name, getattr(value, name))
            told = _about(inner.get(name, "")) or about
            yield from _told(rule, f"{path}.{name}", now, then, each, told, qualities)
    elif isinstance(value, dict):
        for key, each in value.items():
            then = usual.get(key, each) if isinstance(usual, dict) else each
            yield from _told(rule, f"{path}.{key}", each, then, ENTRY, about, qualities)
    elif (made := _field(value, info, qualities)) is not None:
        yield {
            "path": path,
            "label": parameter_label(rule, path),
            "about": "" if about.rstrip(".") == parameter_label(rule, path) else about,
            "usual": _plain(usual),
            "names": {each: choice_label(rule, path, each) for each in made.get("choices", ())},
        } | made


#: What holds of an entry of a table: it is not less than nothing.
ENTRY = FieldInfo(annotation=Any, metadata=[Ge(ge=0)])


def _field(value: Any, info: FieldInfo, qualities: Sequence[str]) -> dict[str, Any] | None:
    """Return how one parameter is set; None if it is not set here."""
    if isinstance(value, bool):
        return {"kind": "switch", "value": value}
    if isinstance(value, int | float):
        step = 1 if isinstance(value, int) else "any"
        return {"kind": "number", "value": value, "step": step} | _bounds(info.metadata)
    if get_origin(info.annotation) is Literal:
        return {"kind": "choice", "value": value, "choices": list(get_args(info.annotation))}
    kinds = get_args(info.annotation)
    if dt.time in (info.annotation, *kinds):
        return {"kind": "time", "value": _plain(value), "optional": NoneType in kinds}
    pair = next((kind for kind in kinds if get_origin(kind) is tuple), info.annotation)
    if get_origin(pair) is tuple:
        return _list(value, pair, info, qualities)
    return None


def _list(
    value: Any, annotation: Any, info: FieldInfo, qualities: Sequence[str]
) -> dict[str, Any] | None:
    """Return how a list is set: numbers that can be added, several of some names, two times."""
    first, *rest = get_args(annotation)
    of, of_each = _bare(first)
    if of is int:
        grows = rest == [...]
        now = list(value or ())
        sizes = {"fewest": len(now), "longest": len(now)} if not grows else _sizes(info.metadata)
        return {"kind": "numbers", "value": now} | sizes | _bounds(of_each)
    if of is dt.time:
        return {"kind": "times", "value": _plain(value), "fewest": 1 + len(rest)}
    names = [day.value for day in of] if issubclass(of, StrEnum) else list(qualities)
    chosen = [str(each) for each in value]
    return {"kind": "several", "value": chosen, "choices": list(dict.fromkeys([*names, *chosen]))}


def _bare(annotation: Any) -> tuple[type, list[Any]]:
    """Return the type of a list's entries and what is asked of each."""
    if get_origin(annotation) is not Annotated:
        return annotation, []
    of, *asked = get_args(annotation)
    told = [each.metadata if isinstance(each, FieldInfo) else [each] for each in asked]
    return of, [item for each in told for item in each]


def _sizes(metadata: Sequence[Any]) -> dict[str, int]:
    fewest = next((m.min_length for m in metadata if isinstance(m, MinLen)), 0)
    longest = next((m.max_length for m in metadata if isinstance(m, MaxLen)), LONGEST)
    return {"fewest": fewest, "longest": longest}


def _bounds(metadata: Sequence[Any]) -> dict[str, float | None]:
    low: Any = next((m.ge for m in metadata if isinstance(m, Ge)), None)
    high: Any = next((m.le for m in metadata if isinstance(m, Le)), None)
    if low is None:
        low = next((m.gt for m in metadata if isinstance(m, Gt)), None)
    if high is None:
        high = next((m.lt for m in metadata if isinstance(m, Lt)), None)
    return {"least": low, "most": high}


def _plain(value: Any) -> Any:
    if isinstance(value, dt.time):
        return f"{value:%H:%M}"
    if isinstance(value, StrEnum):
        return value.value
    return [_plain(each) for each in value] if isinstance(value, tuple) else value
