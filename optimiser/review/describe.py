"""From choices to a document: every number is worked out from the plan, none is taken on trust."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING

from optimiser.days.retests import retest_days, retest_weeks
from optimiser.domain.breach import Breach
from optimiser.domain.document import (
    BreachPart,
    CostParts,
    FixturePart,
    ListedMatchPart,
    LoadPart,
    MatchPart,
    PlanDocument,
    QualityPart,
    ScenarioPart,
    SeasonPart,
    SessionsPart,
    WaiverPart,
    WeekPart,
)
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season, Week
from optimiser.domain.week_number import number_of
from optimiser.explain.waivers import waivers
from optimiser.response.readiness import UNITS
from optimiser.review.audit import audit_plan
from optimiser.review.rounding import kept, kept_or_none
from optimiser.review.score import MatchScore, match_score, readiness, training_load
from optimiser.rule import Rule, lighter_weeks

if TYPE_CHECKING:  # the solvers are not needed to describe a plan
    from optimiser.joint_model.verdict import Verdict


def describe(
    season: Season,
    plan: Plan,
    rules: Sequence[Rule],
    verdict: "Verdict | None",
    *,
    digest: str,
    seed: int,
    versions: Mapping[str, str],
) -> PlanDocument:
    """Return the document of a plan.

    Parameters
    ----------
    verdict
        What is proven of it; None for a plan made by hand.
    digest
        By which the plan knows its season.
    versions
        What made it, by name.

    Raises
    ------
    ValueError
        If the plan has not the weeks, qualities or bands of the season.
    """
    breaches = audit_plan(season, plan, rules)
    return PlanDocument(
        scenario=ScenarioPart(name=season.name, digest=digest),
        seed=seed,
        versions=dict(versions),
        status="stopped" if verdict is None else verdict.status,
        season=None if verdict is None else season_part(verdict),
        match=_match(match_score(season, plan)),
        weeks=_weeks(season, plan, rules),
        breaches=tuple(map(breach_part, breaches)),
        waivers=tuple(WaiverPart(**asdict(each)) for each in waivers(season, plan, rules)),
    )


def breach_part(breach: Breach) -> BreachPart:
    """Return a breach as it stands in a document, its week counted from 1."""
    return BreachPart(
        rule=breach.rule,
        week=None if breach.week is None else number_of(breach.week),
        quality=breach.quality,
        part=breach.part,
        excess=breach.excess,
        unit=breach.unit,
        words=breach.words,
    )


def season_part(verdict: "Verdict") -> SeasonPart:
    """Return what is proven of a plan as it stands in a document, in readiness points."""
    parts = {name: points / UNITS for name, points in asdict(verdict.parts).items()}
    known = verdict.bound > 0
    return SeasonPart(
        cost=verdict.cost / UNITS,
        bound=verdict.bound / UNITS if known else None,
        gap=verdict.gap if known else None,
        status=verdict.status,
        decided_by=verdict.decided_by,
        seconds=round(verdict.seconds, 3),
        changes=verdict.changes / UNITS,
        confirmed=verdict.confirmed,
        parts=CostParts(**parts),
    )


def _match(score: MatchScore) -> MatchPart:
    return MatchPart(
        score=kept_or_none(score.score),
        at_high=kept_or_none(score.at_high),
        at_medium=kept_or_none(score.at_medium),
        at_low=kept_or_none(score.at_low),
    )


def _weeks(season: Season, plan: Plan, rules: Sequence[Rule]) -> tuple[WeekPart, ...]:
    total, by_quality = readiness(season, plan)
    deload = lighter_weeks(season, plan, rules, "deload")
    taper = lighter_weeks(season, plan, rules, "taper")
    again = retest_weeks(season, deload, taper)
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
            fixtures=_fixtures(season, week),
            block=places.get(week.index, (None, None))[0],
            block_week=places.get(week.index, (None, None))[1],
            deload=week.index in deload,
            taper=week.index in taper,
            target=week.target,
            readiness=kept(total[week.index]),
            load=_load(season, plan, week),
            sessions=SessionsPart(field=plan.field[week.index], gym=plan.gym[week.index]),
            retest=retest_days(season, week.index) if week.index in again else (),
            qualities=_qualities(season, plan, week.index, by_quality),
        )
        for week in season.weeks
    )


def _fixtures(season: Season, week: Week) -> tuple[FixturePart, ...]:
    return tuple(
        FixturePart(
            date=fixture.date,
            priority=fixture.priority,
            opponent=fixture.opponent,
            competition=fixture.competition,
            matches=_matches(season.played_on(fixture.date)),
            event=event.first if (event := season.event_on(fixture.date)) else None,
        )
        for fixture in week.fixtures
    )


def _matches(listed: Sequence[Fixture]) -> tuple[ListedMatchPart, ...]:
    """Return each match of a day with several; nothing of a day with one."""
    if len(listed) < 2:
        return ()
    return tuple(
        ListedMatchPart(
            kickoff=f"{match.kickoff:%H:%M}" if match.kickoff else None,
            opponent=match.opponent,
            competition=match.competition,
            venue=match.venue,
        )
        for match in listed
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
            minutes=quality.minutes(plan.doses[index][week], rung),
            readiness=kept(by_quality[index][week]),
        )
    return found
