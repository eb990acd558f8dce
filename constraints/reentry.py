"""Reentry: after time off start low on the ladder and bring volume back in steps."""

from typing import ClassVar, Self

from pydantic import Field

from optimiser.board.board import Board
from optimiser.board.outline import Outline
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.score import full_minutes, training_minutes
from optimiser.rule import Rule


class Reentry(Rule):
    """Restart gently after a break.

    Parameters
    ----------
    days_off
        Days without training from which a break counts.
    rung
        Highest rung (counted from 1) of the first week back.
    long_off, bottom
        Days without training from which the first week back stands on rung ``bottom`` or lower.
    volume
        Most volume in the first weeks back, in per cent of a week with everything at full dose.
    season_start
        True if the first week of the season counts as a return, from ``days_off`` days off where
        no closed weeks say more.
    """

    name: ClassVar[str] = "reentry"
    asks: ClassVar[str] = "careful weeks after time off"
    title: ClassVar[str] = "Return after time off"
    unit: ClassVar[str] = "minutes"
    labels: ClassVar[dict[str, str]] = {
        "days_off": "Days off from which it counts",
        "rung": "Highest rung of the first week back",
        "long_off": "Days off that are long",
        "bottom": "Highest rung after long ones",
        "volume": "Weeks back: most minutes, per cent of a full week",
        "season_start": "The first week of the season is a return",
    }
    safety: ClassVar[bool] = True
    looser_up: ClassVar[frozenset[str]] = frozenset({"days_off", "rung", "volume"})
    eases: ClassVar[dict[str, str]] = {
        "rung": "let {quality} restart at rung {higher} instead of {limit} in {week}",
        "volume": "allow {higher} instead of {limit} min in {week}, soon after time off",
    }
    sources: ClassVar[str] = (
        "Caterisano et al. 2019, SCJ 41(3):1-23: 50, 70, 80, 90 % in the first four weeks after "
        "two weeks or more"
    )

    days_off: int = Field(default=14, ge=1, le=365)
    rung: int = Field(default=2, ge=1, le=12)
    long_off: int = Field(default=21, ge=1, le=365)
    bottom: int = Field(default=1, ge=1, le=12)
    volume: tuple[int, ...] = Field(default=(50, 70, 80, 90), max_length=8)
    season_start: bool = True

    def _returns(self, season: Season) -> dict[int, int]:
        """Return the weeks in which training starts again, and the days off before each."""
        found, closed = {}, 0
        for week in season.weeks:
            back = closed * 7 >= self.days_off or (week.index == closed and self.season_start)
            if not week.closed and back:
                found[week.index] = closed * 7
            closed = closed + 1 if week.closed else 0
        return found

    def shape(self, outline: Outline) -> None:
        """Forbid higher rungs in the first week back."""
        for week, days in self._returns(outline.season).items():
            highest = min(self.rung, self.bottom) if days >= self.long_off else self.rung
            for index, quality in enumerate(outline.season.qualities):
                top = highest + self.free(week, quality.key, "rung")
                tag = self.tag(
                    "{quality:restarts} at rung {limit} or lower in {week}",
                    week,
                    quality,
                    "rung",
                    unit="rungs",
                    limit=highest,
                    subject="rung",
                )
                for rung in range(top, len(quality.bands)):
                    outline.forbid_rung(index, week, rung, tag, rung - top + 1)

    def post(self, board: Board) -> None:
        """Cap the volume of the first open weeks back."""
        season = board.season
        full = season.full_minutes()
        for start in self._returns(season):
            for step, percent in enumerate(self.volume):
                week = start + step
                if week >= len(season.weeks) or season.weeks[week].closed:
                    break
                most = full * percent // 100
                tag = self.tag(
                    "{week}, number {step} after time off, has at most {limit} min ({percent} %)",
                    week,
                    part="volume",
                    limit=most,
                    subject="minutes",
                    step=step + 1,
                    percent=percent,
                )
                spare = self.free(week, part="volume")
                board.model.at_most(board.minutes(week), most + spare, tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Walk the weeks, counting days off and weeks back."""
        found: list[Breach] = []
        off = self.days_off if self.season_start else 0
        closed = 0
        back: int | None = None
        for week in season.weeks:
            if week.closed:
                off, closed, back = off + 7, closed + 7, None
                continue
            if off >= self.days_off:
                back = 0
                long = closed >= self.long_off
                found += self._rungs(plan, season, week.index, self.bottom if long else 12)
            elif back is not None:
                back += 1
            off = closed = 0
            if back is not None and back < len(self.volume):
                found += self._volume(plan, season, week.index, self.volume[back])
        return found

    def _rungs(self, plan: Plan, season: Season, week: int, low: int) -> list[Breach]:
        form, most = "{quality:restarts} at rung {rung} in {week}", min(low, self.rung)
        found: list[Breach] = []
        for quality, row in zip(season.qualities, plan.rungs, strict=True):
            rung = (row[week] or 0) + 1
            over = rung - most
            found += self.breaches(over, form, week, quality, "rung", unit="rungs", rung=rung)
        return found

    def _volume(self, plan: Plan, season: Season, week: int, percent: int) -> list[Breach]:
        minutes = training_minutes(season, plan, week)
        most = full_minutes(season) * percent // 100
        form = "{week:has} {minutes} min soon after time off, {most} at most"
        over = minutes - most
        return self.breaches(over, form, week, part="volume", minutes=minutes, most=most)

    def loosened(self) -> Self | None:
        """Return the rule with one rung more in the first week back."""
        if min(self.rung, self.bottom) >= 12:
            return None
        more = {name: min(12, getattr(self, name) + 1) for name in ("rung", "bottom")}
        return self.model_copy(update=more)

    def step_words(self, after: Self) -> str:
        """Say to a coach what the looser rule ``after`` allows."""
        return (
            f"a first week back at rung {after.rung} or lower instead of {self.rung} (after a "
            f"long break {after.bottom} instead of {self.bottom})"
        )

    def words(self) -> str:
        """Say it to the coach."""
        steps = ", ".join(f"{percent} %" for percent in self.volume)
        return (
            f"After {self.days_off} days off everything restarts at rung {self.rung} or lower, "
            f"after {self.long_off} at rung {self.bottom}, with {steps} of a full week's minutes "
            "in the first weeks."
        )
