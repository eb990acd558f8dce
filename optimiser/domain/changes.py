"""Edits that belong together, and futures: what a season could become."""

from typing import Literal, Self

from pydantic import Field, model_validator

from optimiser.domain.edits import Edit
from optimiser.domain.strict import Strict


class Changes(Strict):
    """Edits that belong together.

    Parameters
    ----------
    edits
        Made in this order; each sees what those before it left.
    """

    name: str = Field(min_length=1, max_length=80)
    note: str = Field(default="", max_length=500)
    edits: tuple[Edit, ...] = Field(min_length=1, max_length=500)


class FutureSeason(Strict):
    """One way the season may go.

    Parameters
    ----------
    weight
        How likely it is, relative to the others.
    edits
        None: the season as it stands.
    """

    name: str = Field(min_length=1, max_length=80)
    weight: float = Field(default=1.0, gt=0, le=1e6)
    edits: tuple[Edit, ...] = Field(default=(), max_length=500)


class Futures(Strict):
    """Ways the season may go, one of which it will.

    Parameters
    ----------
    aim
        ``weighted`` mean of the match scores, or the ``worst`` of them.
    branch_week
        Week (from 1) from which it is known which one; left out, the first in which they differ.
    """

    name: str = Field(default="futures", min_length=1, max_length=80)
    aim: Literal["weighted", "worst"] = "weighted"
    branch_week: int | None = Field(default=None, ge=1)
    futures: tuple[FutureSeason, ...] = Field(min_length=2, max_length=20)

    @model_validator(mode="after")
    def _check_names(self) -> Self:
        names = [future.name for future in self.futures]
        twice = next((name for name in names if names.count(name) > 1), None)
        if twice:
            raise ValueError(f"names of futures must differ (got {twice!r} twice); rename one")
        return self
