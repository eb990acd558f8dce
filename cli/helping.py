"""What would help a plan that is not good: a few changes, each planned anew and priced."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from cli.files.changes_file import Origin, changed_season
from cli.files.scenario_file import Loaded, read_scenario
from cli.render.plain_verdict import great_name, is_good, weeks_that_matter, worst_of
from cli.season.changing import changed_progress
from cli.season.progress import SeasonToday
from optimiser.domain.document import HelpPart, PlanDocument, WeekPart
from optimiser.domain.edits import Drop
from optimiser.domain.plan import Plan
from optimiser.domain.week_number import index_of
from optimiser.explain.limits import Limit, in_the_way
from optimiser.explain.prices.helps import Before
from optimiser.joint_model.effort import Settings
from optimiser.review.rounding import kept
from optimiser.review.score import PRIORITY_WEIGHT
from optimiser.rule import Rule

#: Rules that are tried, changes that are told, and the points of one match worth telling.
TRIED, TOLD, WORTH = 3, 2, 0.5
#: Weeks up to the worst match from which a lesser match may be left out.
BACK = 3
#: Days that lie between two matches at least that are no one event.
APART = dt.timedelta(days=3)


@dataclass(frozen=True)
class Stand:
    """A season and its plan, of which changes are tried.

    Parameters
    ----------
    found
        What limits the plan.
    there
        The season on the day it is, if it has begun.
    """

    loaded: Loaded
    rules: Sequence[Rule]
    plan: Plan
    settings: Settings
    found: Sequence[Limit]
    there: SeasonToday | None = None

    def before(self, week: int) -> Before:
        """Return the weeks before the match of a week (index from 0)."""
        first = self.there.lived.weeks if self.there else 0
        return Before(self.loaded.season, self.rules, self.plan, week, first, self.settings)

    def in_the_way(self) -> list[str]:
        """Return the rules that stop most, most first."""
        return [each.rule for each in in_the_way(self.found)][:TRIED]


def with_helps(document: PlanDocument, stand: Stand) -> PlanDocument:
    """Return the document with the changes that would help most, if its plan is not good."""
    if is_good(document):
        return document
    worst = worst_of(weeks_that_matter(document))
    before = stand.before(index_of(worst.week))
    now = before.ready()
    helps = [_rule(stand, before, worst, now, name) for name in stand.in_the_way()]
    helps += _match(stand, before, document, worst, now)
    worth = sorted((each for each in helps if each.points >= WORTH), key=lambda each: -each.points)
    return document.model_copy(update={"helps": tuple(worth[:TOLD])})


def _rule(stand: Stand, before: Before, worst: WeekPart, now: float, name: str) -> HelpPart:
    change, ready = before.rule(name)
    rule = next(rule for rule in stand.rules if rule.name == name)
    return HelpPart(
        rule=name,
        step=change.step,
        words=change.step or rule.dropped,
        safety=rule.safety,
        week=worst.week,
        fixture=great_name(worst),
        points=kept(ready - now),
    )


def _match(
    stand: Stand, before: Before, document: PlanDocument, worst: WeekPart, now: float
) -> list[HelpPart]:
    """Return what leaving out a lesser match just before the worst one brings that one."""
    there, loaded = stand.there, stand.loaded
    lesser = _lesser(document, worst, there.day if there and there.day else dt.date.min)
    if lesser is None:
        return []
    origin = Origin(str(loaded.path))
    changed = changed_season(read_scenario(loaded.path), "without", [Drop(date=lesser)], origin)
    live = changed_progress(there, changed.loaded).loaded if there else changed.loaded
    points = kept(before.ready(live.season) - now)
    return [HelpPart(match=lesser, week=worst.week, fixture=great_name(worst), points=points)]


def _lesser(document: PlanDocument, worst: WeekPart, today: dt.date) -> dt.date | None:
    """Return the day of the least important match just before the worst week's great one."""
    top = max(PRIORITY_WEIGHT[match.priority] for match in worst.fixtures)
    last = max(match.date for match in worst.fixtures if PRIORITY_WEIGHT[match.priority] == top)
    near = [
        match
        for week in document.weeks[max(0, worst.week - BACK) : worst.week]
        for match in week.fixtures
        if PRIORITY_WEIGHT[match.priority] < top and today <= match.date <= last - APART
    ]
    least = min(
        near,
        key=lambda match: (PRIORITY_WEIGHT[match.priority], -match.date.toordinal()),
        default=None,
    )
    return None if least is None else least.date
