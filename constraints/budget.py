"""Budget: ceilings on a week's sprinting near top speed, ground contacts and hard sets."""

from fractions import Fraction
from functools import cache
from typing import ClassVar, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.model import Terms, scaled, total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Quality
from optimiser.domain.season import Phase, Season
from optimiser.domain.strict import Strict
from optimiser.domain.unit import unit_said
from optimiser.rule import Rule


class Ceiling(Strict):
    """Most of one amount a week, by phase.

    Parameters
    ----------
    off_season, pre_season, in_season
        The most in a week of that phase.
    """

    off_season: int = Field(ge=0)
    pre_season: int = Field(ge=0)
    in_season: int = Field(ge=0)

    def at(self, phase: Phase) -> int:
        """Return the ceiling of a phase."""
        table = {Phase.OFF: self.off_season, Phase.PRE: self.pre_season, Phase.IN: self.in_season}
        return table[phase]


class Budget(Rule):
    """Keep each week's amounts under their ceilings.

    Parameters
    ----------
    ceilings
        By amount: ``near_top_speed_m`` in metres, ``contacts``, ``hard_sets`` per muscle; any
        other name that bands carry may be added.
    """

    name: ClassVar[str] = "budget"
    asks: ClassVar[str] = "weekly ceilings of contacts and metres"
    title: ClassVar[str] = "Weekly ceilings"
    unit: ClassVar[str] = "amounts"
    labels: ClassVar[dict[str, str]] = {
        "ceilings": "Most in a week",
        "near_top_speed_m": "metres near top speed",
        "contacts": "ground contacts",
        "off_season": "off-season",
        "pre_season": "pre-season",
        "in_season": "in season",
    }
    safety: ClassVar[bool] = True
    eases: ClassVar[dict[str, str]] = {"": "allow {higher} instead of {limit} {amount} in {week}"}
    sources: ClassVar[str] = (
        "Malone et al. 2017, J Sci Med Sport 20:250-4: too many top-speed runs also raised risk; "
        "Chu, Jumping into Plyometrics, pp 29-31"
    )

    ceilings: dict[str, Ceiling] = Field(
        default_factory=lambda: {
            "near_top_speed_m": Ceiling(off_season=120, pre_season=120, in_season=120),
            "contacts": Ceiling(off_season=100, pre_season=120, in_season=90),
        }
    )

    def post(self, board: Board) -> None:
        """Post each ceiling that a week could pass."""
        for week in board.open_weeks():
            phase = board.season.weeks[week].phase
            for amount, ceiling in sorted(self.ceilings.items()):
                self._post_one(board, week, amount, ceiling.at(phase))

    def _post_one(self, board: Board, week: int, amount: str, ceiling: int) -> None:
        season = board.season
        tables = {
            index: _table(quality, amount)
            for index, quality in enumerate(season.qualities)
            if any(amount in band.amounts for band in quality.bands)
        }
        most = sum(max(map(max, table)) for table in tables.values())
        spare = self.free(week, part=amount)
        if most <= ceiling + spare:
            return
        sums: Terms = {}
        for index, table in tables.items():
            sums[self._used(board, index, week, table)] = 1
        form, said = "at most {limit} {amount} in {week}", unit_said(amount)
        tag = self.tag(form, week, part=amount, unit=amount, limit=ceiling, amount=said)
        board.model.at_most(sums, ceiling + spare, tag)

    def _used(self, board: Board, index: int, week: int, table: list[list[int]]) -> int:
        """Return a variable at or above what the quality uses."""
        most = max(map(max, table))
        used = board.model.var(0, most, f"used[{index},{week}]")
        for dose in (Dose.TOUCH, Dose.REDUCED, Dose.FULL):
            by_rung = total(
                scaled(board.rung(index, week, rung), row[dose]) for rung, row in enumerate(table)
            )
            peak = max(row[dose] for row in table)
            # used >= by_rung - peak * (1 - dose is at least this)
            flag = scaled(board.at_least(index, week, dose), peak)
            board.model.at_most(total([by_rung, flag, {used: -1}]), peak)
        return used

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Add up each week's amounts."""
        found: list[Breach] = []

        @cache
        def used_in(index: int, rung: int | None, dose: Dose, amount: str) -> int:
            return _used_in(season.qualities[index], rung, dose, amount)

        for week in season.weeks:
            for amount, ceiling in self.ceilings.items():
                used = sum(
                    used_in(index, row[week.index], plan.doses[index][week.index], amount)
                    for index, row in enumerate(plan.rungs)
                )
                most = ceiling.at(week.phase)
                found += self.breaches(
                    used - most,
                    "{week:has} {used} {amount}, {most} at most",
                    week.index,
                    part=amount,
                    unit=amount,
                    used=used,
                    amount=unit_said(amount),
                    most=most,
                )
        return found

    def loosened(self) -> Self | None:
        """Return the rule with ceilings a tenth higher."""
        more = {
            name: Ceiling(**{phase: -(-11 * most // 10) for phase, most in vars(ceiling).items()})
            for name, ceiling in self.ceilings.items()
        }
        return self.model_copy(update={"ceilings": more}) if more else None

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return "weekly ceilings a tenth higher"

    def words(self) -> str:
        """Say it to the coach."""
        parts = [_said(name, ceiling.in_season) for name, ceiling in self.ceilings.items()]
        return f"Ceilings a week in season: {', '.join(parts)}."


def _said(name: str, most: int) -> str:
    """Return a ceiling in words; a name that ends in ``_m`` counts metres."""
    metres = name.endswith("_m")
    words = name.removesuffix("_m").replace("_", " ")
    return f"{most} m {words}" if metres else f"{most} {words}"


def _table(quality: Quality, amount: str) -> list[list[int]]:
    """Return amounts by rung and dose."""
    return [
        [quality.amount(amount, dose, rung) for dose in Dose] for rung in range(len(quality.bands))
    ]


def _used_in(quality: Quality, rung: int | None, dose: Dose, amount: str) -> int:
    if rung is None or dose is Dose.NONE:
        return 0
    if counted := quality.bands[rung].held.get(amount):
        return counted[dose - 1]
    # exact: a float share can fall on the other side of a half
    share = Fraction(quality.minutes(dose, rung), quality.minutes(Dose.FULL, rung))
    return round(Fraction(quality.bands[rung].amounts.get(amount, 0)) * share)
