"""Look over a plan: every rule's own audit, and whether it is a plan at all."""

from collections.abc import Collection, Iterator, Sequence

from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Quality
from optimiser.domain.season import Season
from optimiser.domain.sentence import Fact, Sentence
from optimiser.domain.wording import counted, listed
from optimiser.rule import Rule

#: Rule, week and quality of a breach.
Place = tuple[str, int | None, str | None]
#: Name under which a plan is told that it does not hang together.
STRUCTURE = "structure"
#: Part of every rule that speaks of what is done in closed weeks.
CLOSED = "closed"


def audit_plan(season: Season, plan: Plan, rules: Sequence[Rule]) -> list[Breach]:
    """Return every breach of a plan, by week, then in the order of the rules.

    Raises
    ------
    ValueError
        If the plan has not the weeks, qualities or bands of the season.
    """
    check_shape(season, plan)
    found = structure(season, plan)
    for rule in rules:
        found += rule.audit(plan, season)
    return sorted(found, key=lambda breach: -1 if breach.week is None else breach.week)


def check_shape(season: Season, plan: Plan) -> None:
    """Raise ValueError if the plan has not the weeks, qualities or bands of the season."""
    have, want = (len(plan.rungs), plan.weeks), (len(season.qualities), len(season.weeks))
    if have != want:
        raise ValueError(
            f"a plan must have {want[0]} qualities in {want[1]} weeks (got {have[0]} in {have[1]})"
        )
    for quality, row in zip(season.qualities, plan.rungs, strict=True):
        wrong = [rung for rung in row if rung is not None and not 0 <= rung < len(quality.bands)]
        if wrong:
            raise ValueError(
                f"rungs of {quality.key} must be 1 to {len(quality.bands)} (got {wrong[0] + 1})"
            )


def structure(season: Season, plan: Plan) -> list[Breach]:
    """Return where work, sessions, closed weeks and blocks do not fit each other."""
    found = list(_blocks(season, plan))
    for week in season.weeks:
        look = _closed if week.closed else _open
        found += look(season, plan, week.index)
    return found


def _told(
    part: str, form: str, week: int, quality: Quality | None = None, excess: int = 1, **facts: Fact
) -> Breach:
    key, name = (None, "") if quality is None else (quality.key, quality.name)
    says = Sentence(form, week, name, tuple(facts.items()))
    return Breach(rule=STRUCTURE, week=week, quality=key, part=part, excess=excess, says=says)


def _closed(season: Season, plan: Plan, week: int) -> Iterator[Breach]:
    """One closed week is one breach, whatever is done in it."""
    worked = [
        quality.name
        for index, quality in enumerate(season.qualities)
        if plan.doses[index][week] is not Dose.NONE
    ]
    sessions = plan.sessions(week)
    standing = any(row[week] is not None for row in plan.rungs)
    done = [f"{', '.join(worked)} work"] if worked else []
    done += [counted(sessions, "session")] if sessions else []
    if done:
        form, excess = "{week} is closed and has {done}", len(worked) + sessions
        yield _told(CLOSED, form, week, excess=excess, done=listed(done))
    elif standing:
        yield _told(CLOSED, "{week:is} closed and qualities stand on bands there", week)


def _open(season: Season, plan: Plan, week: int) -> Iterator[Breach]:
    for index, quality in enumerate(season.qualities):
        if plan.rungs[index][week] is None:
            yield _told("band", "{quality:stands} on no band in {week}", week, quality)
    for place, sessions in (("field", plan.field[week]), ("gym", plan.gym[week])):
        here = [index for index, quality in enumerate(season.qualities) if quality.place == place]
        yield from _place(place, sessions, [plan.doses[index][week] for index in here], week)


def _place(place: str, sessions: int, doses: list[Dose], week: int) -> Iterator[Breach]:
    """More than a touch may be split over two sessions, so it counts for two."""
    pieces = sum(min(int(dose), 2) for dose in doses)
    if pieces and not sessions:
        form = "{week:has} {place} work and no {place} session"
        yield _told("sessions", form, week, place=place)
    if sessions > pieces:
        form, excess = "{week:has} {have:{place} session} with work for {pieces}", sessions - pieces
        yield _told("sessions", form, week, None, excess, have=sessions, place=place, pieces=pieces)


def _blocks(season: Season, plan: Plan) -> Iterator[Breach]:
    covered: set[int] = set()
    for block in plan.blocks():
        covered.update(block)
        for quality, row in zip(season.qualities, plan.rungs, strict=True):
            for moved in (week for week in block[1:] if row[week] != row[week - 1]):
                form = "{quality:changes} band in {week}, inside a block"
                yield _told("block", form, moved, quality)
    for week in season.weeks:
        if not week.closed and week.index not in covered:
            yield _told("block", "{week:is} in no block", week.index)


def keeps(
    season: Season,
    rules: Sequence[Rule],
    plan: Plan,
    excused: Collection[Place] = (),
    first: int = 0,
) -> bool:
    """Tell whether a plan breaks no rule from week ``first`` on, but for what is excused."""
    return all(
        (breach.rule, breach.week, breach.quality) in excused
        for breach in must_breaches(season, rules, plan, first)
    )


def must_breaches(
    season: Season, rules: Sequence[Rule], plan: Plan, first: int = 0
) -> tuple[Breach, ...]:
    """Return breaches of rules that must hold, from week ``first`` on."""
    priced = {rule.name for rule in rules if rule.price is not None}
    return tuple(
        breach
        for breach in audit_plan(season, plan, rules)
        if breach.rule not in priced and (breach.week is None or breach.week >= first)
    )
