"""What an audit says first: may the plan be used, what is worst, and which matches suffer."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import compress
from operator import not_

from cli.render.breaches import breach_sentence
from cli.render.grouping import GroupedLine, Said, grouped
from cli.render.words import one_line
from optimiser.domain.breach import Breach
from optimiser.domain.document import FixturePart, PlanDocument, WeekPart
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import counted, weeks_listed
from optimiser.review.audit import CLOSED, STRUCTURE
from optimiser.rule import Rule

#: Points of readiness from which a match is said to suffer: against the best plan, and against
#: the target where there is no other plan.
SUFFERS, SHORT = 1.0, 2.0
#: Matches named at most, and lines of breaches before those of one rule are put together.
MOST_MATCHES, MOST_LINES = 4, 20
#: Weeks that are still named one by one.
MOST_WEEKS = 6
PAST = "In weeks that are over, which nothing can mend:"
MARK = "!"
MARKED = f"{MARK} keeps people safe."


@dataclass(frozen=True)
class Broken:
    """The breaches of a plan, sorted by what they mean.

    Parameters
    ----------
    safety, held, paid
        Of rules that keep people safe, of others that must hold, of rules that have a price.
    past
        In weeks that are over, which nothing can mend.
    """

    safety: tuple[Breach, ...]
    held: tuple[Breach, ...]
    paid: tuple[Breach, ...]
    past: tuple[Breach, ...] = ()

    @property
    def usable(self) -> bool:
        """Tell whether every rule that must hold does."""
        return not self.safety and not self.held

    @property
    def worst(self) -> Breach | None:
        """Return the one to mend first: safety before all else, then the largest excess."""
        for kind in (self.safety, self.held, self.paid):
            if kind:
                return max(kind, key=lambda breach: breach.excess)
        return None


def broken(breaches: Sequence[Breach], rules: Sequence[Rule], over: int = 0) -> Broken:
    """Sort breaches by the rules they are of; a closed week that is worked in counts once.

    Parameters
    ----------
    over
        How many weeks are over.
    """
    past = tuple(each for each in breaches if each.week is not None and each.week < over)
    breaches = [each for each in breaches if each not in past]
    closed = {each.week for each in breaches if _of_closed(each)}
    told = [each for each in breaches if _of_closed(each) or not _says_closed(each, closed)]
    paid = {rule.name for rule in rules if rule.price is not None}
    safe = {rule.name: rule for rule in rules}
    held = [each for each in told if each.rule not in paid]
    keeps = [each.rule in safe and safe[each.rule].keeps_safe(each.part) for each in held]
    return Broken(
        tuple(compress(held, keeps)),
        tuple(compress(held, map(not_, keeps))),
        tuple(each for each in told if each.rule in paid),
        past,
    )


def verdict_text(told: PlanDocument, best: PlanDocument | None, found: Broken) -> str:
    """Return whether a plan may be used as it stands, and what is worst about it."""
    worst = found.worst
    if worst is None:
        return "No rule is broken from here on." if found.past else "No rule is broken."
    if found.usable:
        return f"Every rule that must hold does; {_times(found.paid)} paid for (see below)."
    lines = [_unusable(found), f"Worst: {_marked(worst, found)}."]
    suffering = suffering_matches(told, best, _first(found) if best is None else 0)
    if suffering:
        lines += ["Matches that suffer:", *suffering]
    return "\n".join(lines)


def _unusable(found: Broken) -> str:
    must = (*found.safety, *found.held)
    weeks = sorted({number_of(each.week) for each in must if each.week is not None})
    few = weeks_listed(weeks) if len(weeks) <= MOST_WEEKS else f"{len(weeks)} weeks"
    where = f" in {few}" if weeks else ""
    told = f"NOT FIT TO USE: {_times(must)} of rules that must hold{where}"
    safe = len(found.safety)
    return f"{told}, {safe} of them of rules that keep people safe." if safe else f"{told}."


def _first(found: Broken) -> int:
    """Return the first week, from 0, in which a rule that must hold is broken."""
    return min((each.week or 0 for each in (*found.safety, *found.held)), default=0)


def _times(breaches: Sequence[Breach]) -> str:
    return counted(len(breaches), "breach")


def _marked(breach: Breach, found: Broken) -> str:
    mark = f" {MARK}" if breach in found.safety else ""
    return f"{breach.rule}{mark}: {breach_sentence(breach)}"


def suffering_matches(told: PlanDocument, best: PlanDocument | None, first: int = 0) -> list[str]:
    """Return the matches at which a plan is well below the best one, else below the target.

    Parameters
    ----------
    first
        The first week, from 0, that can be the reason.
    """
    others = told.weeks if best is None else best.weeks
    rows = []
    for here, there in list(zip(told.weeks, others, strict=True))[first:]:
        behind = here.target - here.readiness if best is None else _behind(here, there)
        if behind >= (SHORT if best is None else SUFFERS):
            rows += [(behind, _match(here, fixture, there, best)) for fixture in here.fixtures]
    ranked = [words for _, words in sorted(rows, key=lambda row: -row[0])]
    more = len(ranked) - MOST_MATCHES
    return [*ranked[:MOST_MATCHES], *([f"  and {more} more"] if more > 0 else [])]


def _behind(here: WeekPart, there: WeekPart) -> float:
    """Return the points by which a week falls short of what could be had and is wanted."""
    return min(there.readiness, here.target) - here.readiness


def _match(here: WeekPart, fixture: FixturePart, there: WeekPart, best: PlanDocument | None) -> str:
    name = one_line(fixture.opponent or fixture.competition or "match", 30)
    ours = "" if best is None else f", {there.readiness:.1f} in our plan"
    return (
        f"  week {here.week:>2}  {fixture.date}  {fixture.priority.value:<6}  {name}: planned "
        f"readiness {here.readiness:.1f}{ours}, target {here.target:.0f}"
    )


def breach_lines(found: Broken) -> list[str]:
    """Return every breach in as few lines as they need, those that matter most first."""
    kinds = ((found.safety, "Rules that keep people safe:"), (found.held, "Rules that must hold:"))
    lines: list[str] = []
    later = ((found.paid, "Rules with a price:"), (found.past, PAST))
    for breaches, head in (*kinds, *later):
        safe = breaches is found.safety
        said = [Said(each.rule, breach_sentence(each), safe) for each in breaches]
        here = [_line(line) for line in grouped(said, MOST_LINES)]
        lines += [head, *here] if here else []
    return [*lines, MARKED] if found.safety else lines


def _line(line: GroupedLine) -> str:
    return f"  {line.rule}{f' {MARK}' if line.safety else ''}: {line.text}"


def _of_closed(breach: Breach) -> bool:
    """Tell whether this is the one breach of a closed week that is worked in."""
    return breach.rule == STRUCTURE and breach.part == CLOSED


def _says_closed(breach: Breach, closed: set[int | None]) -> bool:
    """Tell whether a breach only says again that a week is closed."""
    return breach.week in closed and breach.part == CLOSED
