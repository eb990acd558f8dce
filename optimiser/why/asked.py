"""Another choice in one place, as a rule that must hold."""

from typing import ClassVar

from optimiser.board.board import Board
from optimiser.board.model import total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.rule import Rule


class Asked(Rule):
    """What a person asked about.

    Parameters
    ----------
    week, rung
        From 0.
    quality
        Key.
    rung, dose
        One of them is given.
    """

    name: ClassVar[str] = "asked"
    unit: ClassVar[str] = "choices"

    week: int
    quality: str
    rung: int | None = None
    dose: Dose | None = None

    def post(self, board: Board) -> None:
        """Hold the choice; in a closed week nothing but no work can be held."""
        season = board.season
        index = season.keys.index(self.quality)
        tag = self.tag(self.says(season), self.week, self.quality)
        if season.weeks[self.week].closed:
            board.model.at_most({board.one: int(self.dose != Dose.NONE)}, 0, tag)
            return
        if self.rung is not None:
            board.model.at_least(board.rung(index, self.week, self.rung), 1, tag)
        if self.dose is not None:
            flags = [board.at_least(index, self.week, Dose(least)) for least in (1, 2, 3)]
            board.model.at_least(total(flags), int(self.dose), tag)
            board.model.at_most(total(flags), int(self.dose), tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Compare with the plan."""
        index = season.keys.index(self.quality)
        rung, dose = plan.rungs[index][self.week], plan.doses[index][self.week]
        wrong = (self.rung is not None and rung != self.rung) or self.dose not in (None, dose)
        words = f"not so: {self.says(season)}"
        return [self.breach(1, words, self.week, self.quality)] if wrong else []

    def says(self, season: Season) -> str:
        """Return the choice in words."""
        quality = season.qualities[season.keys.index(self.quality)]
        if self.rung is not None:
            return f"{quality.name} on band {quality.bands[self.rung].code} in week {self.week + 1}"
        word = "nothing" if self.dose is None else self.dose.word
        return f"{quality.name} at dose {word} in week {self.week + 1}"

    def words(self) -> str:
        """Say it to the coach."""
        return f"Another choice is asked for in week {self.week + 1}."
