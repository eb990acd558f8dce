"""Which keys a model knows, so that a wrong one can be answered with the right one."""

from collections.abc import Collection, Mapping, Sequence
from difflib import get_close_matches
from typing import Any, get_args, get_origin

from pydantic import BaseModel


def known_keys(model: type[BaseModel], path: Sequence[str | int]) -> set[str]:
    """Return the keys allowed at ``path`` below ``model``; none if they cannot be told."""
    here: Any = model
    for part in path:
        here = _step(here, part)
    found = _model_in(here)
    return set(found.model_fields) if found else set()


def nearest(word: str, words: Collection[str]) -> str | None:
    """Return the one of ``words`` most like ``word``, or None if none is."""
    close = get_close_matches(word.lower(), sorted(words), n=1, cutoff=0.6)
    return close[0] if close else None


def _step(here: Any, part: str | int) -> Any:
    model = _model_in(here)
    if model and isinstance(part, str) and part in model.model_fields:
        return model.model_fields[part].annotation
    origin = get_origin(here)
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return get_args(here)[1]
    return here


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in get_args(annotation):
        found = _model_in(inner)
        if found:
            return found
    return None
