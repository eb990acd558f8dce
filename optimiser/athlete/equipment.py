"""What a club has to train with."""

from collections.abc import Collection
from typing import Self

from pydantic import model_validator

from optimiser.domain.strict import Strict


class Equipment(Strict):
    """What is there, or what is not; everything is there unless told.

    Parameters
    ----------
    have
        All there is; an empty list is a club with nothing but a field.
    missing
        What is not there.
    """

    have: tuple[str, ...] | None = None
    missing: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.have is not None and self.missing:
            raise ValueError("have and missing must not both be given (got both); keep one")
        return self

    def lacking(self, known: Collection[str]) -> frozenset[str]:
        """Return what of all ``known`` equipment is not there."""
        return frozenset(self.missing if self.have is None else set(known) - set(self.have))
