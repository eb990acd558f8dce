"""Another choice in one place, as a rule that must hold."""

from typing import ClassVar

from optimiser.board.board import Board
from optimiser.board.model import Tag, total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.rule import Rule

CHOICE = "{quality} {choice} in {week}"


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
    wish: ClassVar[bool] = True

    week: int
    quality: str
    rung: int | None = None
    dose: Dose | None = None

    def post(self, board: Board) -> None:
        """Hold the choice; in a closed week nothing but no work can be held."""
        season = board.season
        index = season.keys.index(self.quality)
        tag = self._tag(season)
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
        if not wrong:
            return []
        form, quality = f"not so: {CHOICE}", season.qualities[index]
        return self.breaches(1, form, self.week, quality, choice=self._choice(season))

    def says(self, season: Season) -> str:
        """Return the choice in words."""
        return str(self._tag(season).says)

    def _tag(self, season: Season) -> Tag:
        quality = season.qualities[season.keys.index(self.quality)]
        return self.tag(CHOICE, self.week, quality, choice=self._choice(season))

    def _choice(self, season: Season) -> str:
        if self.rung is not None:
            bands = season.qualities[season.keys.index(self.quality)].bands
            return f"on band {bands[self.rung].code}"
        return f"at dose {'nothing' if self.dose is None else self.dose.word}"

    def words(self) -> str:
        """Say it to the coach."""
        return f"Another choice is asked for in week {number_of(self.week)}."
