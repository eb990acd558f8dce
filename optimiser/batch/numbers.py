"""What a row says about a plan, worked out from its choices."""

from collections.abc import Sequence

from optimiser.batch.row import Result, RowStatus
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.review.rounding import kept_or_none
from optimiser.review.score import match_score, training_load
from optimiser.rule import Rule, lighter_weeks

RAMP_WEEKS = 4


def planned_result(
    season: Season,
    plan: Plan,
    rules: Sequence[Rule],
    *,
    status: RowStatus,
    gap: float | None,
    seconds: float,
) -> Result:
    """Return the row's numbers of a plan."""
    score = match_score(season, plan)
    loads = week_loads(season, plan)
    return Result(
        status=status,
        gap=gap,
        match=kept_or_none(score.score),
        at_high=kept_or_none(score.at_high),
        at_medium=kept_or_none(score.at_medium),
        at_low=kept_or_none(score.at_low),
        peak_load=max(loads),
        largest_ramp=largest_ramp(season, loads),
        weeks_at_caps=len(weeks_at_caps(season, plan, rules)),
        deloads=len(lighter_weeks(season, plan, rules, "deload")),
        tapers=len(lighter_weeks(season, plan, rules, "taper")),
        seconds=round(seconds, 3),
        plan=plan,
    )


def week_loads(season: Season, plan: Plan) -> list[int]:
    """Return the load of each week with matches and practice, in AU."""
    return [training_load(season, plan, week.index) + week.fixed_load for week in season.weeks]


def largest_ramp(season: Season, loads: Sequence[int]) -> float | None:
    """Return the most per cent by which an open week lies above the mean of the four before.

    None in a season of four open weeks or fewer.
    """
    held = [loads[week.index] for week in season.weeks if not week.closed]
    ramps = []
    for place in range(RAMP_WEEKS, len(held)):
        mean = sum(held[place - RAMP_WEEKS : place]) / RAMP_WEEKS
        if mean > 0:
            ramps.append(100 * (held[place] / mean - 1))
    return round(max(ramps), 1) if ramps else None


def weeks_at_caps(season: Season, plan: Plan, rules: Sequence[Rule]) -> set[int]:
    """Return the open weeks in which one more field or one more gym session breaks a cap."""
    caps = [rule for rule in rules if rule.caps_sessions]
    more = [
        plan.model_copy(update={"field": tuple(count + 1 for count in plan.field)}),
        plan.model_copy(update={"gym": tuple(count + 1 for count in plan.gym)}),
    ]
    broken = {
        breach.week
        for rule in caps
        for fuller in more
        for breach in rule.audit(fuller, season)
        if breach.unit == "sessions"
    }
    return {week.index for week in season.weeks if week.index in broken and not week.closed}
