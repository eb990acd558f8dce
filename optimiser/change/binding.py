"""Rules that bind in a plan and did not in another; no solver is asked.

A rule binds in a week if one dose more in that week, of one quality, would break it.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season
from optimiser.explain.limits import StepUp, Trial
from optimiser.review.audit import STRUCTURE
from optimiser.rule import Rule

#: Weeks looked at, so that the answer is quick.
MOST_WEEKS = 6

Tight = Mapping[str, Mapping[int, int]]


@dataclass(frozen=True)
class Binding:
    """A rule that binds now and did not before.

    Parameters
    ----------
    weeks
        By week (index from 0), how many qualities it holds back there more than before.
    """

    rule: str
    weeks: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Bindings:
    """Rules that bind now and not before, and the other way round, in the weeks looked at."""

    looked_at: tuple[int, ...]
    now: tuple[Binding, ...]
    no_more: tuple[Binding, ...]


def bindings(
    before: tuple[Season, Plan, Sequence[Rule]],
    after: tuple[Season, Plan, Sequence[Rule]],
    weeks: Iterable[int],
) -> Bindings:
    """Return what binds in ``weeks`` (most important first) of one plan and not of the other."""
    wanted = tuple(sorted(list(dict.fromkeys(weeks))[:MOST_WEEKS]))
    was, now = tight(*before, wanted), tight(*after, wanted)
    return Bindings(wanted, _more(now, was), _more(was, now))


def tight(season: Season, plan: Plan, rules: Sequence[Rule], weeks: Iterable[int]) -> Tight:
    """Return, by rule and week, how many qualities it keeps from one dose more."""
    trial = Trial(season, plan, rules)
    found: dict[str, dict[int, int]] = defaultdict(lambda: defaultdict(int))
    for week in weeks:
        for quality in range(len(season.qualities)):
            if plan.rungs[quality][week] is None or plan.doses[quality][week] is Dose.FULL:
                continue
            broken = trial.broken(StepUp(quality, range(week, week + 1), "dose"))
            for rule in broken - {STRUCTURE}:
                found[rule][week] += 1
    return found


def _more(here: Tight, there: Tight) -> tuple[Binding, ...]:
    """Return rules tight in weeks in which they hold back nothing on the other side."""
    found = []
    for rule, weeks in here.items():
        other = there.get(rule, {})
        new = tuple(sorted((week, count) for week, count in weeks.items() if not other.get(week)))
        if new:
            found.append(Binding(rule, new))
    return tuple(sorted(found, key=_most_first))


def _most_first(item: Binding) -> tuple[int, str]:
    return -sum(count for _, count in item.weeks), item.rule
