"""The numbers of the readiness target recipe."""

from typing import Self

from pydantic import Field, model_validator

from optimiser.domain.strict import Strict


class RunIn(Strict):
    """A climb towards a fixture: ``peak`` in its week, ``step`` less in each week before.

    Parameters
    ----------
    peak
        Target in the week of the fixture, 0-100.
    step
        Points lower for each week earlier.
    weeks
        Weeks before the fixture's own in which the climb shows.
    """

    peak: float = Field(ge=0, le=100)
    step: float = Field(ge=0, le=50)
    weeks: int = Field(ge=0, le=20)

    def at(self, weeks_before: int) -> float:
        """Return the target ``weeks_before`` the fixture."""
        return max(0.0, self.peak - self.step * weeks_before)


class TargetSettings(Strict):
    """The recipe; engineering choice, no direct study.

    That readiness is planned by week and full only for the great days is common practice
    (Bompa and Haff 2009, Periodization; from memory).

    Parameters
    ----------
    off_season
        Base level out of season, 0-100.
    pre_season_from, pre_season_to
        The base climbs evenly between them.
    with_fixture, without_fixture
        In-season base level.
    high, medium
        Climbs towards a fixture of that priority.
    let_down
        Targets of the weeks after a ``high`` fixture.
    let_down_unless
        No let-down in a week whose run-in is at least this.
    rise
        Most points a week by which targets climb: earlier weeks are lifted where they would climb
        faster.
    by_week
        Targets set by hand; weeks counted from 1.
    """

    off_season: float = Field(default=30, ge=0, le=100)
    pre_season_from: float = Field(default=30, ge=0, le=100)
    pre_season_to: float = Field(default=45, ge=0, le=100)
    with_fixture: float = Field(default=60, ge=0, le=100)
    without_fixture: float = Field(default=55, ge=0, le=100)
    high: RunIn = RunIn(peak=95, step=7, weeks=4)
    medium: RunIn = RunIn(peak=80, step=7, weeks=2)
    let_down: tuple[float, ...] = Field(default=(55, 50, 55), max_length=12)
    let_down_unless: float = Field(default=80, ge=0, le=100)
    rise: float = Field(default=8, gt=0, le=100)
    by_week: dict[int, float] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _check_range(self) -> Self:
        named = {f"let_down {number}": value for number, value in enumerate(self.let_down, 1)}
        named |= {f"by_week {week}": value for week, value in self.by_week.items()}
        for name, value in named.items():
            if not 0 <= value <= 100:
                raise ValueError(f"{name} must lie in 0 to 100 (got {value:g}); change it")
        return self
