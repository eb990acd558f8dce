"""The document of a plan in a season in progress: planned choices, lived numbers, what was done."""

from collections.abc import Sequence

from cli.season.progress import SeasonToday
from cli.solving import document_of
from optimiser.domain.document import DonePart, PlanDocument, WeekPart
from optimiser.domain.plan import Plan
from optimiser.joint_model.verdict import Verdict
from optimiser.progress.against import WeekAgainst, against
from optimiser.progress.carry_on import with_planned_past
from optimiser.review.rounding import kept
from optimiser.rule import Rule


def document_in_progress(
    there: SeasonToday,
    rules: Sequence[Rule],
    chosen: Plan,
    verdict: Verdict | None,
    seed: int,
) -> PlanDocument:
    """Return the document of a plan that is to be put in force.

    Its past weeks keep the choices that were planned, with the load and readiness that came of
    what was done; without a past it is the document of the plan.

    Parameters
    ----------
    chosen
        The plan, with what was done in the weeks that are decided.
    """
    lived = document_of(there.loaded, rules, chosen, verdict, seed)
    if not there.lived.weeks:
        return lived.model_copy(update={"today": there.day})
    lived = with_done(there, lived)
    planned = with_planned_past(there.planned, chosen, there.lived.weeks)
    told = document_of(there.loaded, rules, planned, seed=seed)
    weeks = [_as_planned(real, plan) for real, plan in zip(lived.weeks, told.weeks, strict=True)]
    return lived.model_copy(update={"weeks": tuple(weeks)})


def with_done(there: SeasonToday, lived: PlanDocument) -> PlanDocument:
    """Return the document of a plan as it was lived, with what was planned and done beside it."""
    found = against(there.as_planned, there.planned, there.lived).weeks
    past = [_with_done(week, each) for week, each in zip(lived.weeks, found, strict=False)]
    weeks = (*past, *lived.weeks[len(past) :])
    return lived.model_copy(update={"today": there.day, "weeks": weeks})


def _with_done(week: WeekPart, each: WeekAgainst) -> WeekPart:
    done = DonePart(
        recorded=each.recorded,
        bands={key: part.band for key, part in week.qualities.items()},
        doses={key: part.dose for key, part in week.qualities.items()},
        sessions=week.sessions,
        planned_load=each.load_planned,
        planned_readiness=kept(each.ready_planned),
    )
    return week.model_copy(update={"done": done})


def _as_planned(real: WeekPart, plan: WeekPart) -> WeekPart:
    """Return a week with the choices of the plan and the numbers that came of what was done."""
    if real.done is None:
        return real.model_copy(update={"block": plan.block, "block_week": plan.block_week})
    qualities = {
        key: part.model_copy(update={"readiness": real.qualities[key].readiness})
        for key, part in plan.qualities.items()
    }
    numbers = {"load": real.load, "readiness": real.readiness, "target": real.target}
    return plan.model_copy(update={**numbers, "qualities": qualities, "done": real.done})
