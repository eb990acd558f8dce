"""A scenario and its fixtures become a season ready to plan."""

from collections.abc import Sequence

from optimiser.domain.fixture import Fixture
from optimiser.domain.quality import Quality
from optimiser.domain.scenario import Scenario
from optimiser.domain.season import Phase, Season, Week
from optimiser.domain.setup_error import SetupError
from optimiser.setup.calendar import build_weeks
from optimiser.setup.emphasis import emphasis_targets
from optimiser.setup.events import days_in_a_row, events_of, several_a_day
from optimiser.setup.qualities import build_qualities
from optimiser.setup.targets import readiness_targets

#: Readiness at the first Monday by the phase of its week, where no scenario says it: after a
#: closed season, a few weeks into training, in full swing. Engineering choice.
START = {Phase.OFF: 55.0, Phase.PRE: 50.0, Phase.IN: 65.0}


def build_season(scenario: Scenario, fixtures: Sequence[Fixture]) -> Season:
    """Return the season of ``scenario`` played over ``fixtures``.

    Parameters
    ----------
    fixtures
        All of them, from the scenario and from its file, in any order.

    Raises
    ------
    SetupError
        If a fixture lies outside the season, a date that is given a priority has no fixture, or
        a break misses the season.
    """
    ranked = settle_fixtures(scenario, fixtures)
    settled = events_of(ranked, scenario.match.minutes)
    weeks = build_weeks(scenario, settled)
    qualities = _started(build_qualities(scenario), scenario, weeks[0])
    targets = readiness_targets(weeks, scenario.targets)
    return Season(
        name=scenario.name,
        sport=scenario.sport,
        weeks=tuple(
            week.model_copy(update={"target": target})
            for week, target in zip(weeks, targets, strict=True)
        ),
        qualities=qualities,
        emphasis=emphasis_targets(weeks, qualities),
        match_minutes=scenario.match.minutes,
        matches=len(fixtures),
        listed=several_a_day(ranked),
        events=days_in_a_row(ranked),
        **_school(scenario),
        **_given(scenario),
    )


def _school(scenario: Scenario) -> dict[str, bool]:
    """Return whether all who train are under 18, and whether hours of school are not given."""
    young = bool(scenario.under_18)
    return {"under_18": young, "school_assumed": young and not scenario.speaks_of_school}


def _started(qualities: Sequence[Quality], scenario: Scenario, first: Week) -> tuple[Quality, ...]:
    """Begin the year where the last one ended, or where such a week usually finds a squad."""
    given = scenario.readiness.start
    start = START[first.phase] if given is None else given
    return tuple(
        quality
        if "start" in quality.model_fields_set
        else quality.model_copy(update={"start": start})
        for quality in qualities
    )


def settle_fixtures(scenario: Scenario, fixtures: Sequence[Fixture]) -> tuple[Fixture, ...]:
    """Return the fixtures as listed, checked and with the scenario's priorities."""
    _check_fixtures(scenario, fixtures)
    _check_priorities(scenario, fixtures)
    _check_breaks(scenario)
    return tuple(
        fixture.model_copy(
            update={"priority": scenario.priorities.get(fixture.date, fixture.priority)}
        )
        for fixture in fixtures
    )


def _check_fixtures(scenario: Scenario, fixtures: Sequence[Fixture]) -> None:
    for index, fixture in enumerate(fixtures):
        _check_inside(scenario, fixture, index)


def _check_inside(scenario: Scenario, fixture: Fixture, index: int) -> None:
    if not scenario.first_monday <= fixture.date <= scenario.last_day:
        raise SetupError(
            "date",
            f"must lie in the season, {scenario.first_monday} to {scenario.last_day}",
            f"{fixture.date} ({fixture.name})",
            "correct the date, or change first_monday or weeks in the scenario",
            fixture=index,
        )


def _check_priorities(scenario: Scenario, fixtures: Sequence[Fixture]) -> None:
    without = sorted(set(scenario.priorities) - {fixture.date for fixture in fixtures})
    if without:
        raise SetupError(
            "priorities",
            "every date must be that of a fixture",
            f"{without[0]}, on which there is none",
            "correct the date or take it out",
        )


def _check_breaks(scenario: Scenario) -> None:
    for number, item in enumerate(scenario.breaks, 1):
        if item.last < scenario.first_monday or item.first > scenario.last_day:
            raise SetupError(
                f"breaks[{number}]",
                f"must touch the season, {scenario.first_monday} to {scenario.last_day}",
                f"{item.first} to {item.last}",
                "correct the dates or take it out",
            )


def _given(scenario: Scenario) -> dict[str, float]:
    numbers = {
        "match_fatigue": scenario.match.fatigue,
        "match_tau": scenario.match.tau,
        "travel_fatigue": scenario.match.travel_fatigue,
        "fatigue_scale": scenario.readiness.fatigue_scale,
        "reach": scenario.readiness.reach,
    }
    return {name: value for name, value in numbers.items() if value is not None}
