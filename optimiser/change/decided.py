"""What is decided of a season in progress: no search may change it."""

import json
from dataclasses import dataclass
from typing import Self

from optimiser.domain.plan import Plan
from optimiser.domain.season import Season


@dataclass(frozen=True)
class Decided:
    """What is decided: the first ``weeks`` weeks of ``past``.

    Parameters
    ----------
    planned
        The season and the plan before anything was done in it: what clashes with that too is not
        for history to answer for. Left out, all went as planned.
    """

    past: Plan
    weeks: int
    planned: tuple[Season, Plan] | None = None

    def to_json(self) -> str:
        """Return it as text, on its way to another process."""
        parts = [self.past.model_dump(mode="json"), self.weeks]
        parts += [part.model_dump(mode="json") for part in self.planned or ()]
        return json.dumps(parts, separators=(",", ":"))

    @classmethod
    def from_json(cls, text: str) -> Self:
        """Return what :meth:`to_json` wrote."""
        past, weeks, *planned = json.loads(text)
        there = planned and (Season.model_validate(planned[0]), Plan.model_validate(planned[1]))
        return cls(Plan.model_validate(past), weeks, there or None)
