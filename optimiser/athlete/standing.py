"""Standing work: what every session begins with, and what every week holds beside the plan."""

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from typing import Annotated, Any, Literal, Self

from pydantic import Field, model_validator

from optimiser.athlete.exercise import Item
from optimiser.domain.quality import Place
from optimiser.domain.season import Phase
from optimiser.domain.strict import Strict

#: Printed once where lowering for the hamstrings is on a page.
BOTH_SIDES = (
    "Hamstring lowering: injury risk ratio 0.49 (95 % 0.32-0.74) in programmes that hold it, 0.52 "
    "(0.32-0.85) in randomised trials (van Dyk et al. 2019, British Journal of Sports Medicine "
    "53(21): 1362); a reappraisal calls the evidence inconclusive (Impellizzeri et al. 2021, "
    "Journal of Clinical Epidemiology)."
)

Part = Literal["warm-up", "finish"]
#: The steps of a warm-up, in order.
STEPS = ("raise", "activate", "mobilise", "potentiate")
Items = Annotated[tuple[Item, ...], Field(min_length=1, max_length=8)]
Times = Annotated[int, Field(ge=0, le=7)]


class Step(Strict):
    """What is done from one week of the programme on (from 1).

    Parameters
    ----------
    times
        The most a week; as often as the phase wants it if left out.
    """

    week: int = Field(ge=1)
    work: Items
    times: Times | None = None


def step_in(steps: Iterable[Step], week: int) -> Step:
    """Return the one of rising steps that a week (from 1) is in."""
    return [step for step in steps if step.week <= week][-1]


class StandingKind(Strict):
    """One kind of standing work.

    Parameters
    ----------
    part
        Where in a session it stands.
    place
        Where it is done if it can be.
    off_season, pre_season, in_season
        Times a week.
    days_before
        Least days from its session to the next match.
    steps
        Rising weeks; the first is week 1.
    """

    name: str = Field(min_length=1, max_length=30)
    part: Part = "finish"
    place: Place | None = None
    off_season: Times = 2
    pre_season: Times = 2
    in_season: Times = 2
    days_before: int = Field(default=2, ge=0, le=14)
    steps: tuple[Step, ...] = Field(min_length=1, max_length=20)

    @model_validator(mode="after")
    def _check(self) -> Self:
        weeks = [step.week for step in self.steps]
        if weeks[0] != 1 or weeks != sorted(set(weeks)):
            raise ValueError(f"steps must rise from week 1 (got {weeks}); put them in order")
        return self

    def times(self, phase: Phase, week: int) -> int:
        """Return how often it is wanted in a week of the programme (from 1)."""
        usual = {
            Phase.OFF: self.off_season,
            Phase.PRE: self.pre_season,
            Phase.IN: self.in_season,
        }[phase]
        most = step_in(self.steps, week).times
        return usual if most is None else min(usual, most)

    def work(self, week: int) -> tuple[Item, ...]:
        """Return what is done in a week of the programme (from 1)."""
        return step_in(self.steps, week).work


class WarmUp(Strict):
    """A warm-up in four steps, in order."""

    raise_: Items = Field(alias="raise")
    activate: Items
    mobilise: Items
    potentiate: Items

    @property
    def parts(self) -> tuple["StandingPart", ...]:
        """Return its steps as parts of a session."""
        work = (self.raise_, self.activate, self.mobilise, self.potentiate)
        return tuple(
            StandingPart(name=name, part="warm-up", work=items)
            for name, items in zip(STEPS, work, strict=True)
        )


class StandingPart(Strict):
    """A step of the warm-up, or one kind of standing work, in one session.

    Parameters
    ----------
    steps
        The kind's programme, for who is in another week of it than the squad.
    """

    name: str
    part: Part
    work: Items
    steps: tuple[Step, ...] = Field(default=(), exclude=True)

    def at(self, week: int | None) -> Self:
        """Return it as in a week of the programme (from 1); None as the squad."""
        work = self.work if week is None or not self.steps else step_in(self.steps, week).work
        return self.model_copy(update={"work": work, "steps": ()})


class Preparation(Strict):
    """All standing work."""

    kinds: dict[str, StandingKind]
    warm_up: dict[Place, WarmUp]

    @property
    def keys(self) -> frozenset[str]:
        """Return the exercises it names."""
        kinds = (item for kind in self.kinds.values() for step in kind.steps for item in step.work)
        warm = (item for way in self.warm_up.values() for part in way.parts for item in part.work)
        return frozenset(item.exercise for item in (*kinds, *warm))


def default_preparation() -> Preparation:
    """Return the standing work the tool comes with."""
    return own_preparation({})


def own_preparation(tables: Mapping[str, Any]) -> Preparation:
    """Return it with the user's tables laid over, kind by kind and key by key.

    Parameters
    ----------
    tables
        As under ``[preparation.KIND]``: ``work`` in place of ``steps`` where it never changes,
        and any key of `StandingKind`. A kind of the user's own needs ``name`` and ``work``.

    Raises
    ------
    pydantic.ValidationError
        If they cannot be used.
    """
    warm_up = _default_tables()["warm_up"]
    return Preparation.model_validate({"kinds": kind_tables(tables), "warm_up": warm_up})


def kind_tables(tables: Mapping[str, Any]) -> dict[str, Any]:
    """Return the tables of all kinds, the user's laid over the usual ones; nothing is checked."""
    kinds = dict(_default_tables()["kinds"])
    for key, given in tables.items():
        table = dict(given) if isinstance(given, Mapping) else given
        if isinstance(table, dict) and "work" in table:
            work = table.pop("work")
            table["steps"] = [{"week": 1, "work": [work] if isinstance(work, Mapping) else work}]
        kinds[key] = {**kinds.get(key, {}), **table} if isinstance(table, dict) else table
    return kinds


@cache
def _default_tables() -> dict[str, Any]:
    path = files("optimiser").joinpath("athlete", "preparation.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))
