"""From choices to a document: every number is worked out from the plan, none is taken on trust."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from math import isfinite
from typing import TYPE_CHECKING

from optimiser.audit import audit_plan
from optimiser.domain.breach import Breach
from optimiser.domain.document import (
    BreachPart,
    CostParts,
    FixturePart,
    LoadPart,
    MatchPart,
    PlanDocument,
    QualityPart,
    ScenarioPart,
    SeasonPart,
    SessionsPart,
    StagePart,
    Status,
    WaiverPart,
    WeekPart,
)
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season, Week
from optimiser.objective import TENTH, Prices, emphasis_value, readiness_value
from optimiser.readiness import UNITS
from optimiser.rounding import kept, kept_or_none
from optimiser.rule import Rule
from optimiser.score import MatchScore, match_score, readiness, training_load
from optimiser.waivers import waivers

if TYPE_CHECKING:  # the solvers are not needed to describe a plan
    from optimiser.solve import Outcome, Stage
    from optimiser.together.verdict import Verdict

#: A stage whose gap is at most this is as good as proven for a coach.
SMALL_GAP = 0.01


def describe(
    season: Season,
    plan: Plan,
    rules: Sequence[Rule],
    outcome: "Outcome | None",
    *,
    digest: str,
    seed: int,
    versions: Mapping[str, str],
    prices: Prices | None = None,
    verdict: "Verdict | None" = None,
    over: int = 0,
) -> PlanDocument:
    """Return the document of a plan.

    Parameters
    ----------
    outcome
        The search it came from; None for a plan made by hand.
    digest
        By which the plan knows its season.
    versions
        What made it, by name.
    prices
        Of the objectives, as the search had them.
    verdict
        What is proven of the season as a whole, if it was searched so.
    over
        How many weeks are over: what they break is told, and takes nothing from the search.

    Raises
    ------
    ValueError
        If the plan has not the weeks, qualities or bands of the season.
    """
    breaches = audit_plan(season, plan, rules)
    stages = () if outcome is None else outcome.stages
    status = (
        status_of(season, plan, rules, stages, ahead(breaches, over), prices or Prices())
        if verdict is None
        else verdict.status
    )
    return PlanDocument(
        scenario=ScenarioPart(name=season.name, digest=digest),
        seed=seed,
        versions=dict(versions),
        status=status,
        stages=tuple(map(_stage, stages)),
        season=None if verdict is None else _season(verdict),
        match=_match(match_score(season, plan)),
        weeks=_weeks(season, plan, rules),
        breaches=tuple(map(breach_part, breaches)),
        waivers=tuple(WaiverPart(**asdict(each)) for each in waivers(season, plan, rules)),
    )


def status_of(
    season: Season,
    plan: Plan,
    rules: Sequence[Rule],
    stages: "Sequence[Stage]",
    breaches: Sequence[Breach],
    prices: Prices,
) -> Status:
    """Return what may be said of a plan.

    ``proven`` is said only if every stage is, no rule that must hold is broken, and the
    objectives come out the same when they are worked out from the choices.
    """
    if not stages:
        return "stopped"
    clean = not unpaid(breaches, rules)
    proven = all(stage.status == "proven" for stage in stages)
    if proven and clean and _met_again(season, plan, rules, stages, breaches, prices):
        return "proven"
    small = all(stage.gap is not None and stage.gap <= SMALL_GAP for stage in stages)
    return "within_gap" if small and clean else "stopped"


def _met_again(
    season: Season,
    plan: Plan,
    rules: Sequence[Rule],
    stages: "Sequence[Stage]",
    breaches: Sequence[Breach],
    prices: Prices,
) -> bool:
    """Tell whether the objectives told are those of this very plan.

    What rules with a price cost is that of the last stage's doses, so an earlier stage can be
    held to its objective only where no rule has one.
    """
    price = {rule.name: rule.price for rule in rules if rule.price is not None}
    paid = sum(price.get(breach.rule, 0) * breach.excess for breach in breaches)
    worked_out = {
        "emphasis": emphasis_value(season, prices, plan) + paid,
        "doses": readiness_value(season, prices, plan) + TENTH * paid,
    }
    told = {stage.name: stage.objective for stage in (stages[-1:] if price else stages)}
    return all(worked_out.get(name) == objective for name, objective in told.items())


def ahead(breaches: Sequence[Breach], over: int) -> list[Breach]:
    """Return the breaches that are not of the first ``over`` weeks."""
    return [breach for breach in breaches if breach.week is None or breach.week >= over]


def unpaid(breaches: Sequence[Breach], rules: Sequence[Rule]) -> list[Breach]:
    """Return the breaches of rules that must hold; those with a price are paid for."""
    priced = {rule.name for rule in rules if rule.price is not None}
    return [breach for breach in breaches if breach.rule not in priced]


def breach_part(breach: Breach) -> BreachPart:
    """Return a breach as it stands in a document, its week counted from 1."""
    return BreachPart(
        rule=breach.rule,
        week=None if breach.week is None else breach.week + 1,
        quality=breach.quality,
        part=breach.part,
        excess=breach.excess,
        unit=breach.unit,
        words=breach.words,
    )


def _stage(stage: "Stage") -> StagePart:
    return StagePart(
        name=stage.name,
        status=stage.status,
        objective=stage.objective,
        bound=_finite(stage.bound),
        gap=_finite(stage.gap),
        seconds=round(stage.seconds, 3),
        deterministic_time=round(stage.deterministic_time, 6),
        confirmed=stage.confirmed,
    )


def _season(verdict: "Verdict") -> SeasonPart:
    parts = {name: points / UNITS for name, points in asdict(verdict.parts).items()}
    known = verdict.bound > 0
    return SeasonPart(
        cost=verdict.cost / UNITS,
        bound=verdict.bound / UNITS if known else None,
        gap=verdict.gap if known else None,
        status=verdict.status,
        decided_by=verdict.decided_by,
        seconds=round(verdict.seconds, 3),
        parts=CostParts(**parts),
    )


def _finite(value: float) -> float | None:
    """Return the value, or None where the search never had a bound."""
    return value if isfinite(value) else None


def _match(score: MatchScore) -> MatchPart:
    return MatchPart(
        score=_short(score.score),
        at_high=_short(score.at_high),
        at_medium=_short(score.at_medium),
        at_low=_short(score.at_low),
    )


def _short(value: float | None) -> float | None:
    return kept_or_none(value)


def _weeks(season: Season, plan: Plan, rules: Sequence[Rule]) -> tuple[WeekPart, ...]:
    total, by_quality = readiness(season, plan)
    deload, taper = _marked(season, plan, rules, "deload"), _marked(season, plan, rules, "taper")
    places = {
        week: (number, week - block.start + 1)
        for number, block in enumerate(plan.blocks(), 1)
        for week in block
    }
    return tuple(
        WeekPart(
            week=week.number,
            monday=week.monday,
            phase=week.phase,
            fixtures=_fixtures(week),
            block=places.get(week.index, (None, None))[0],
            block_week=places.get(week.index, (None, None))[1],
            deload=week.index in deload,
            taper=week.index in taper,
            target=week.target,
            readiness=kept(total[week.index]),
            load=_load(season, plan, week),
            sessions=SessionsPart(field=plan.field[week.index], gym=plan.gym[week.index]),
            qualities=_qualities(season, plan, week.index, by_quality),
        )
        for week in season.weeks
    )


def _marked(season: Season, plan: Plan, rules: Sequence[Rule], name: str) -> frozenset[int]:
    """Return the weeks the rule of that name lightens; none if it is not in use."""
    return frozenset().union(*(rule.marks(plan, season) for rule in rules if rule.name == name))


def _fixtures(week: Week) -> tuple[FixturePart, ...]:
    return tuple(
        FixturePart(
            date=fixture.date,
            priority=fixture.priority,
            opponent=fixture.opponent,
            competition=fixture.competition,
        )
        for fixture in week.fixtures
    )


def _load(season: Season, plan: Plan, week: Week) -> LoadPart:
    training = training_load(season, plan, week.index)
    return LoadPart(
        training=training,
        practice=week.practice_load,
        matches=week.match_load,
        total=training + week.practice_load + week.match_load,
    )


def _qualities(
    season: Season, plan: Plan, week: int, by_quality: Sequence[Sequence[float]]
) -> dict[str, QualityPart]:
    found = {}
    for index, quality in enumerate(season.qualities):
        rung = plan.rungs[index][week]
        band = None if rung is None else quality.bands[rung]
        found[quality.key] = QualityPart(
            band=band.code if band else None,
            label=band.label if band else "",
            rung=None if rung is None else rung + 1,
            dose=plan.doses[index][week].word,
            readiness=kept(by_quality[index][week]),
        )
    return found
