"""Why a week is as it is, in a coach's sentences: target, deload, taper, block and days."""

from collections.abc import Callable, Sequence

from cli.render.breaches import breach_line
from cli.render.terminal import filled
from cli.render.week_days import session_content
from cli.render.words import one_line
from optimiser.days.spacing_settings import DaySettings
from optimiser.days.week_plan import WeekPlan
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import listed, weeks_listed
from optimiser.explain.why.at_matches import telling
from optimiser.explain.why.block_ends import OtherEnd, other_ends
from optimiser.review.describe import breach_part
from optimiser.review.score import readiness
from optimiser.rule import Lighter, Rule, lighter_weeks

#: Weeks ahead in which a match that matters is named as what a target climbs to.
AHEAD = 8
#: Change of a readiness that is worth a word, in points.
WORTH = 0.05
#: Signs of a session in words, more than any usual one has.
LONGEST = 400
#: How a rule is told.
Say = Callable[[Rule], str]
TOPICS = ("target", "deload", "taper", "block", "days")


def week_why(
    season: Season,
    plan: Plan,
    rules: Sequence[Rule],
    week: int,
    made: WeekPlan,
    topic: str,
    *,
    numbers: bool = False,
) -> str:
    """Return why a week (from 0) is as it is.

    Parameters
    ----------
    made
        The week on its days.
    topic
        One of `TOPICS`; empty for all of them.
    numbers
        Whether rules are told with their limits.
    """

    def say(rule: Rule) -> str:
        return rule.words() if numbers else rule.reason()

    said = {
        "target": lambda: _target(season, plan, week),
        "deload": lambda: _lighter(season, plan, rules, week, "deload", say),
        "taper": lambda: _lighter(season, plan, rules, week, "taper", say),
        "block": lambda: _block(season, plan, rules, week),
        "days": lambda: _days(rules, made, say),
    }
    asked = [topic] if topic else list(TOPICS)
    return "\n\n".join(filled(said[each]()) for each in asked)


def _target(season: Season, plan: Plan, week: int) -> str:
    here, ready = season.weeks[week], readiness(season, plan)[0][week]
    told = f"Week {number_of(week)} aims at a readiness of {here.target:.0f} and plans {ready:.1f}."
    return f"{told} {_aim(season, week)}"


def _aim(season: Season, week: int) -> str:
    here = season.weeks[week]
    if here.top_priority not in (None, Priority.LOW):
        names = [one_line(f.name, 30) for f in here.fixtures if f.priority is here.top_priority]
        return f"It holds the {here.top_priority} match against {listed(names)}."
    before = season.weeks[week - 1] if week else None
    rank = before.top_priority if before else None
    if before and rank and rank.great and here.target < before.target:
        return f"It comes after a {rank} match, where less is asked for."
    ahead = [
        each for each in season.weeks[week + 1 : week + 1 + AHEAD] if _matters(each.top_priority)
    ]
    rising = ahead and season.weeks[week].target < ahead[0].target
    if rising:
        top = [each for each in ahead[0].fixtures if each.priority is ahead[0].top_priority]
        name = one_line(top[-1].name, 30)
        weeks = ahead[0].index - week
        plural = "" if weeks == 1 else "s"
        return f"Targets climb from here to {name}, {weeks} week{plural} ahead."
    return f"That is the usual level of the {here.phase}" + (
        ", in a week with a match." if here.fixtures else "."
    )


def _matters(priority: Priority | None) -> bool:
    return priority not in (None, Priority.LOW)


def _lighter(
    season: Season, plan: Plan, rules: Sequence[Rule], week: int, name: Lighter, say: Say
) -> str:
    """Say whether a week is lightened under that name, and why."""
    found = [rule for rule in rules if rule.lightens == name]
    if not found:
        return f"No rule asks for a {name} in this season."
    marked = sorted(lighter_weeks(season, plan, rules, name))
    words = say(found[0])
    if week in marked:
        return f"Week {number_of(week)} is a {name} week. {words}"
    others = sorted(marked, key=lambda each: (abs(each - week), each))[:2]
    near = f" The nearest: {weeks_listed([each + 1 for each in others])}." if others else ""
    return f"Week {number_of(week)} is no {name} week.{near} {words}"


def _block(season: Season, plan: Plan, rules: Sequence[Rule], week: int) -> str:
    block = next((each for each in plan.blocks() if week in each), None)
    if block is None:
        return f"Week {number_of(week)} is closed and in no block."
    inside = weeks_listed([number_of(each) for each in block])
    told = f"Week {number_of(week)} is in the block of {inside}."
    ends = other_ends(season, plan, rules, block)
    if not ends:
        why = "the season ends" if block.stop >= plan.weeks else "a break follows"
        return f"{told} It ends there because {why}."
    return " ".join([told, *map(_other_end, ends)])


def _other_end(end: OtherEnd) -> str:
    what = "A week more" if end.weeks > 0 else "A week less"
    if end.breaches:
        breach = end.breaches[0]
        rules = list(dict.fromkeys(each.rule for each in end.breaches))
        more = f", and {listed(rules[1:])} too" if len(rules) > 1 else ""
        told = breach_line(breach_part(breach))
        return f"{what} is stopped by {breach.rule}{more}: {told}."
    worse = _worse(end)
    return f"{what} would break no rule{f', but {worse}' if worse else ' and is as good'}."


def _worse(end: OtherEnd) -> str:
    lost, gained = telling(end.matches)
    parts = []
    if end.emphasis:
        parts.append("bands stand further off" if end.emphasis > 0 else "bands stand nearer")
    for change, word in ((lost, "less"), (gained, "more")):
        if change is not None and abs(change.gain) >= WORTH:
            name = f"{one_line(change.name, 30)} (week {number_of(change.week)})"
            parts.append(f"{name} is {abs(change.gain):.1f} points {word} ready")
    return listed(parts) if parts else ""


def _days(rules: Sequence[Rule], made: WeekPlan, say: Say) -> str:
    """Say where the sessions of a week are, what kept them apart, and what could not be kept."""
    near = {day.date: f" ({day.label})" if day.label else "" for day in made.days}
    placed = [
        f"{day.date:%A}{near[day.date]} {one_line(session_content(each), LONGEST)}"
        for day in made.days
        for each in day.sessions
    ]
    if not placed:
        return f"Week {made.week} has no sessions."
    told = f"Sessions of week {made.week}: {'; '.join(placed)}."
    spacing = [say(rule) for rule in rules if isinstance(rule, DaySettings)]
    faults = [f"Not kept: {fault}." for fault in made.faults]
    return " ".join([told, *spacing, *made.notes, *faults])
