"""A breach: one place where a plan does not keep a rule."""

from pydantic import Field, computed_field

from optimiser.domain.sentence import UNSAID, Sentence
from optimiser.domain.strict import Strict


class Breach(Strict):
    """How far a plan misses one rule in one place.

    Parameters
    ----------
    rule
        Name of the rule.
    week
        Index from 0, or None if the rule speaks of the whole season.
    quality
        Key of the quality, or None if the rule speaks of all of them.
    part
        Which of the rule's limits, if it has several.
    excess
        How far, in ``unit``; a whole number above 0.
    says
        What a coach is told.
    """

    rule: str
    week: int | None = Field(default=None, ge=0)
    quality: str | None = None
    part: str = ""
    excess: int = Field(ge=1)
    unit: str = "times"
    says: Sentence = Field(default=UNSAID, exclude=True)

    @computed_field  # type: ignore[prop-decorator]
    @property
    def words(self) -> str:
        """Return what a coach is told."""
        return str(self.says)
