"""A plan: the choices, and nothing that can be computed from them."""

from itertools import pairwise
from typing import Self

from pydantic import Field, model_validator

from optimiser.domain.quality import Dose
from optimiser.domain.strict import Strict


class Plan(Strict):
    """What is chosen, week by week (indices from 0).

    Parameters
    ----------
    starts
        Weeks in which a block starts, rising. A block ends where the next starts, or before
        the next week that has no rung.
    rungs
        One row a quality, one column a week; None in a week without training.
    doses
        Same shape, ``none`` where nothing is done.
    field, gym
        Sessions a week.
    """

    starts: tuple[int, ...]
    rungs: tuple[tuple[int | None, ...], ...]
    doses: tuple[tuple[Dose, ...], ...]
    field: tuple[int, ...] = Field(min_length=1)
    gym: tuple[int, ...]

    @model_validator(mode="after")
    def _check_shape(self) -> Self:
        sizes = {len(self.field), len(self.gym), *map(len, self.rungs), *map(len, self.doses)}
        if len(sizes) != 1 or len(self.rungs) != len(self.doses):
            raise ValueError(f"every row must have one entry a week (got lengths {sorted(sizes)})")
        if any(later <= earlier for earlier, later in pairwise(self.starts)):
            raise ValueError(f"block starts must rise (got {list(self.starts)})")
        return self

    @property
    def weeks(self) -> int:
        """Return the number of weeks."""
        return len(self.field)

    def blocks(self) -> list[range]:
        """Return each block as a range of weeks, in order."""
        found = []
        for start, following in pairwise((*self.starts, self.weeks)):
            stop = next(
                (week for week in range(start, following) if self.rungs[0][week] is None),
                following,
            )
            found.append(range(start, stop))
        return [block for block in found if block]

    def sessions(self, week: int) -> int:
        """Return field and gym sessions of ``week`` together."""
        return self.field[week] + self.gym[week]
