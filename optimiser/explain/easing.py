"""What it means to a coach that a demand gives way, in the words of its rule."""

from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.sentence import Sentence
from optimiser.domain.unit import in_units
from optimiser.explain.demand import Demand
from optimiser.rule import Rule


def eased(rule: Rule, demand: Demand, by: int, season: Season, plan: Plan) -> Sentence:
    """Return the sentence of a demand that gives way by so many of its units.

    Parameters
    ----------
    plan
        One in which it does.
    """
    tag, limit = demand.first, demand.first.limit or 0
    form = rule.ease(tag) or f"let {rule.name} give way by {{more}}: {tag.says.form}"
    return (
        tag.says.about(by=by, more=in_units(by, tag.unit), higher=limit + by, lower=limit - by)
        .about(**rule.tried(season, plan, tag, by))
        .put(form)
    )
