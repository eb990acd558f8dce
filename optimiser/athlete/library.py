"""The exercise library and what each band holds, ours and the user's own."""

import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from typing import Annotated, Any, Self

from pydantic import BeforeValidator, Field, model_validator

from optimiser.athlete.exercise import Exercise, Item
from optimiser.domain.quality import Band, Quality
from optimiser.domain.strict import Strict
from optimiser.setup.default_ladders import default_tables


def _items(value: Any) -> Any:
    """Return a single item as a list of one."""
    return [value] if isinstance(value, Mapping) else value


Items = Annotated[tuple[Item, ...], BeforeValidator(_items), Field(min_length=1, max_length=20)]


class Library(Strict):
    """Exercises by key and work by band.

    Parameters
    ----------
    standard
        Work of the default ladders, by quality and code.
    own
        Work the user wrote, by code; it beats the standard.
    """

    exercises: dict[str, Exercise]
    standard: dict[str, dict[str, Items]] = Field(default_factory=dict)
    own: dict[str, Items] = Field(default_factory=dict)

    @property
    def tags(self) -> frozenset[str]:
        """Return every contraindication an exercise names."""
        return frozenset(tag for found in self.exercises.values() for tag in found.avoid)

    @property
    def equipment(self) -> frozenset[str]:
        """Return everything an exercise needs."""
        return frozenset(word for found in self.exercises.values() for word in found.equipment)

    def items(self, quality: Quality, rung: int) -> tuple[Item, ...]:
        """Return the work of a rung, or nothing if only the band's own words tell.

        Standard work counts only for a band that still says what the default one says: the same
        code in another ladder may mean something else.
        """
        band = quality.bands[rung]
        if band.code in self.own:
            return self.own[band.code]
        usual = _default_work().get((quality.key, band.code))
        same = usual is not None and band.work == usual
        return self.standard.get(quality.key, {}).get(band.code, ()) if same else ()

    @model_validator(mode="after")
    def _check(self) -> Self:
        for key, exercise in self.exercises.items():
            for other in (*exercise.instead, *exercise.also, *filter(None, [exercise.of])):
                self._check_key(f"exercises.{key}", other)
        for code, items in self.own.items():
            for item in items:
                self._check_key(f"prescriptions.{code}", item.exercise)
        for items in (work for ladder in self.standard.values() for work in ladder.values()):
            for item in items:
                self._check_key("prescriptions", item.exercise)
        return self

    def _check_key(self, where: str, key: str) -> None:
        if key not in self.exercises:
            close = get_close_matches(key, self.exercises, n=1)
            do = f"did you mean {close[0]}?" if close else "add it under exercises"
            raise ValueError(f"{where} must name an exercise of the library (got {key!r}); {do}")


def default_library() -> Library:
    """Return the library the tool comes with."""
    return _default_library()


def own_library(
    prescriptions: Mapping[str, Any], exercises: Mapping[str, Any] | None = None
) -> Library:
    """Return the default library with the user's own work and exercises in it.

    Parameters
    ----------
    prescriptions
        An item or a list of items by band code, as under ``[prescriptions.CODE]``.
    exercises
        More exercises, or other ones under known keys, as under ``[exercises.KEY]``.

    Raises
    ------
    pydantic.ValidationError
        If anything in them cannot be used; the model is `OwnWork`.
    """
    own = OwnWork.model_validate(
        {"prescriptions": prescriptions, "exercises": dict(exercises or {})}
    )
    return own.library()


class OwnWork(Strict):
    """What a user adds to the library."""

    prescriptions: dict[str, Items] = Field(default_factory=dict)
    exercises: dict[str, Exercise] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _check(self) -> Self:
        self.library()
        return self

    def library(self) -> Library:
        """Return the default library with these in it."""
        usual = default_library()
        return Library(
            exercises={**usual.exercises, **self.exercises},
            standard=usual.standard,
            own=self.prescriptions,
        )


@cache
def _default_library() -> Library:
    here = files("optimiser").joinpath("athlete")
    exercises, cues, work = (
        tomllib.loads(here.joinpath(f"{name}.toml").read_text(encoding="utf-8"))
        for name in ("exercises", "cues", "prescriptions")
    )
    for key, cue in cues.items():
        exercises[key]["cue"] = cue
    return Library.model_validate({"exercises": exercises, "standard": work})


@cache
def _default_work() -> dict[tuple[str, str], str]:
    return {
        (key, band["code"]): Band.model_validate(band).work
        for key, table in default_tables().items()
        for band in table["bands"]
    }
