"""What if: a season and a changed one, both planned, and the difference."""

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.change.binding import Bindings, bindings
from optimiser.change.decided import Decided
from optimiser.change.near import Near, solve_near
from optimiser.change.side_by_side import Difference, Pair, compare
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.joint_model.effort import Settings
from optimiser.rule import Rule


@dataclass(frozen=True)
class Side:
    """A season with its rules and its plan."""

    season: Season
    rules: Sequence[Rule]
    plan: Plan


@dataclass(frozen=True)
class Answer:
    """What a changed season comes to.

    Parameters
    ----------
    near
        Its plan, with what is proven, or that there is none.
    """

    near: Near
    difference: Difference | None
    bindings: Bindings | None


def ask(
    base: Side,
    season: Season,
    rules: Sequence[Rule],
    pairs: Sequence[Pair],
    settings: Settings,
    decided: Decided | None = None,
) -> Answer:
    """Plan a changed season, starting from the plan of ``base``, and compare the two.

    Parameters
    ----------
    decided
        Weeks that stand, in a season in progress.
    """
    near = solve_near(season, rules, base.plan, settings, decided)
    if near.plan is None:
        return Answer(near, None, None)
    difference = compare((base.season, base.plan), (season, near.plan), pairs)
    looked = bindings(
        (base.season, base.plan, base.rules),
        (season, near.plan, rules),
        telling_weeks(season, difference, pairs),
    )
    return Answer(near, difference, looked)


def telling_weeks(season: Season, found: Difference, pairs: Sequence[Pair]) -> list[int]:
    """Return weeks in which binding rules tell most: of changed fixtures, then of most change."""
    first = season.weeks[0].monday
    days = [each.date for was, now in pairs if was != now for each in (now, was) if each]
    edited = [(day - first).days // 7 for day in days]
    busy = sorted(found.weeks, key=lambda row: (-len(row.cells), row.week))
    return [*edited, *(row.week for row in busy)]
