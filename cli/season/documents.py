"""The document of a plan in a season in progress: planned choices, lived numbers, what was done."""

from collections.abc import Sequence

from cli.season.progress import Progress
from cli.solving import document_of
from optimiser.domain.document import DonePart, PlanDocument, QualityPart, WeekPart
from optimiser.domain.plan import Plan
from optimiser.progress.carry_on import with_planned_past
from optimiser.rule import Rule
from optimiser.solve import Outcome, Settings
from optimiser.together.verdict import Verdict


def document_in_progress(
    there: Progress,
    rules: Sequence[Rule],
    chosen: Plan,
    outcome: Outcome | None,
    settings: Settings,
    verdict: Verdict | None = None,
) -> PlanDocument:
    """Return the document of a plan that is to be put in force.

    Its past weeks keep the choices that were planned, with the load and readiness that came of
    what was done; without a past it is the document of the plan.

    Parameters
    ----------
    chosen
        The plan, with what was done in the weeks that are decided.
    """
    lived = document_of(there.loaded, rules, chosen, outcome, settings, verdict)
    weeks = there.lived.weeks
    if not weeks:
        return lived.model_copy(update={"today": there.day})
    planned = with_planned_past(there.planned, chosen, weeks)
    told = document_of(there.loaded, rules, planned, None, settings)
    past = [
        _past_week(real, plan, recorded=real.week - 1 in there.lived.recorded)
        for real, plan in zip(lived.weeks[:weeks], told.weeks[:weeks], strict=True)
    ]
    ahead = [
        real.model_copy(update={"block": plan.block, "block_week": plan.block_week})
        for real, plan in zip(lived.weeks[weeks:], told.weeks[weeks:], strict=True)
    ]
    return lived.model_copy(update={"today": there.day, "weeks": (*past, *ahead)})


def _past_week(real: WeekPart, plan: WeekPart, *, recorded: bool) -> WeekPart:
    done = DonePart(
        recorded=recorded,
        bands={key: part.band for key, part in real.qualities.items()},
        doses={key: part.dose for key, part in real.qualities.items()},
        sessions=real.sessions,
    )
    qualities = {key: _quality(real.qualities[key], part) for key, part in plan.qualities.items()}
    kept = {"load": real.load, "readiness": real.readiness, "target": real.target}
    return plan.model_copy(update={**kept, "qualities": qualities, "done": done})


def _quality(real: QualityPart, plan: QualityPart) -> QualityPart:
    return plan.model_copy(update={"readiness": real.readiness})
