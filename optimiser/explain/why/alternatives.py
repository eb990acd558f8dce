"""The other choices in one place, each with its cost or the rule that forbids it.

No solver is asked: one choice is changed, all else stays, and the audits and plain scores look at
the result.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.explain.why.at_matches import FixtureChange, match_changes
from optimiser.explain.why.edit import block_of, with_band, with_dose
from optimiser.explain.why.terms import Terms, cost_terms
from optimiser.review.audit import audit_plan
from optimiser.review.score import match_score
from optimiser.rule import Rule

Place = tuple[str, int | None, str | None, str]


@dataclass(frozen=True)
class Alternative:
    """One other choice.

    Parameters
    ----------
    choice
        Code of the band, or the dose in a word.
    current
        True if it is the plan's own.
    breaches
        Breaches it brings that the plan does not have; none if it is allowed as it is.
    cost
        What the season costs more, term by term.
    score
        Change of the match score, in points.
    matches
        Readiness at every fixture, as it is and with the choice.
    """

    choice: str
    current: bool
    breaches: tuple[Breach, ...]
    cost: Terms
    score: float
    matches: tuple[FixtureChange, ...]


@dataclass(frozen=True)
class Alternatives:
    """The choices for one quality in one week.

    Parameters
    ----------
    block
        Weeks the band is held for.
    bands, doses
        In the order of the ladder, and from none to full.
    """

    block: range
    bands: tuple[Alternative, ...]
    doses: tuple[Alternative, ...]


def alternatives(
    season: Season,
    plan: Plan,
    rules: Sequence[Rule],
    quality: int,
    week: int,
    rates: Rates | None = None,
) -> Alternatives:
    """Return every band and dose one quality could have in one open week."""
    look = _Look(season, plan, rules, rates or Rates())
    spec, rung = season.qualities[quality], plan.rungs[quality][week]
    bands = [
        look.at(band.code, at == rung, [with_band(plan, quality, week, at)])
        for at, band in enumerate(spec.bands)
    ]
    doses = [
        look.at(
            dose.word,
            dose is plan.doses[quality][week],
            with_dose(season, plan, quality, week, dose),
        )
        for dose in Dose
    ]
    return Alternatives(block_of(plan, week), tuple(bands), tuple(doses))


class _Look:
    """Compares changed plans with the one they come from."""

    def __init__(self, season: Season, plan: Plan, rules: Sequence[Rule], rates: Rates) -> None:
        self.season, self.plan, self.rules, self.rates = season, plan, rules, rates
        self.priced = {rule.name for rule in rules if rule.price is not None}
        self.before = Counter({_place(b): b.excess for b in audit_plan(season, plan, rules)})
        self.cost = cost_terms(season, rules, plan, rates)
        self.score = match_score(season, plan).score or 0.0

    def at(self, choice: str, current: bool, ways: Iterable[Plan]) -> Alternative:
        """Return one alternative; of several ways to have it, the first that breaks least."""
        best: tuple[int, Plan, tuple[Breach, ...]] | None = None
        for plan in [self.plan] if current else ways:
            new = self._new(plan)
            if best is None or len(new) < best[0]:
                best = len(new), plan, new
            if not new:
                break
        assert best is not None
        _, plan, new = best
        return Alternative(
            choice=choice,
            current=current,
            breaches=new,
            cost=cost_terms(self.season, self.rules, plan, self.rates).minus(self.cost),
            score=(match_score(self.season, plan).score or 0.0) - self.score,
            matches=match_changes(self.season, self.plan, plan),
        )

    def _new(self, plan: Plan) -> tuple[Breach, ...]:
        return tuple(
            breach
            for breach in audit_plan(self.season, plan, self.rules)
            if breach.rule not in self.priced and breach.excess > self.before[_place(breach)]
        )


def _place(breach: Breach) -> Place:
    return breach.rule, breach.week, breach.quality, breach.part
