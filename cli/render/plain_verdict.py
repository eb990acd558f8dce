"""Whether a plan is any good, in plain words: for the top of the table and of the pages."""

import math
import textwrap
from collections.abc import Sequence
from statistics import mean

from cli.render.rule_words import asked_by
from cli.render.words import one_line
from optimiser.domain.document import HelpPart, PlanDocument, WeekPart
from optimiser.domain.fixture import Priority
from optimiser.domain.week_number import index_of
from optimiser.explain.limits import Limit, in_the_way

WIDTH = 100
#: Shares of the target that readiness reaches at the matches that matter. Engineering choices.
GOOD, FAIR = 0.95, 0.85
#: Points that matches cost, and share of the weeks without room, from which they are the reason.
COSTLY, CROWDED = 10.0, 0.2
#: Points, or share of what is missing, from which a change is worth a word. Engineering choices.
HELPS, HELPING = 1.0, 0.1
#: Points below its target from which a last great match is worth a word. Engineering choice.
NOTICED = 2.0
#: Weeks a great match has to itself, below which they are called many; the most of them counted as
#: few; and open weeks before the worst match from which they are called few. Common practice.
APART, FEW, SHORT = 6, 3, 8


def plain_verdict(document: PlanDocument, found: Sequence[Limit], ask: str = "") -> str:
    """Return one word on a plan that is not good, why, and what would help most; "" of a good one.

    Parameters
    ----------
    found
        What limits the plan, worst week first.
    ask
        Where more is said.
    """
    # a file's name is there to be copied, so no line ends inside it
    lines = textwrap.TextWrapper(WIDTH, break_on_hyphens=False, break_long_words=False)
    return lines.fill(" ".join(verdict_sentences(document, found, ask)))


def verdict_sentences(document: PlanDocument, found: Sequence[Limit], ask: str = "") -> list[str]:
    """Return the same, a sentence each."""
    last = _last(document)
    if is_good(document):
        return [*last, *([ask] if ask and last else [])]
    weeks = weeks_that_matter(document)
    share = reached(weeks)
    worst = worst_of(weeks)
    word = "A fair plan" if share >= FAIR else "A POOR PLAN"
    head = (
        f"{word}: planned readiness reaches {100 * share:.0f} % of its target at the matches that "
        f"matter most, and {worst.readiness:.0f} of {worst.target:.0f} at "
        f"{one_line(great_name(worst), 30)} (week {worst.week})."
    )
    said = [head, *last, *_reasons(document, found, worst), *_helps(document, worst)]
    return [*said, *([ask] if ask else [])]


def _last(document: PlanDocument) -> list[str]:
    """Say so where the last great match of several is the worst prepared, and how to ask more."""
    great = [week for week in document.weeks if any(m.priority.great for m in week.fixtures)]
    if len(great) < 2 or great[-1] is not worst_of(great):
        return []
    last, others = great[-1], min(week.readiness for week in great[:-1])
    if last.readiness > last.target - NOTICED:
        return []
    level = math.floor(min(last.target, max(others, last.readiness + NOTICED)))
    return [
        f"The last great match, {one_line(great_name(last), 30)} (week {last.week}), is the worst "
        f"prepared: {last.readiness:.0f} of {last.target:.0f}. What lifting it would cost the "
        f"others: `why` with --week {last.week} --readiness {level}."
    ]


def is_good(document: PlanDocument) -> bool:
    """Tell whether a plan needs no word: it is near its targets where it matters."""
    weeks = weeks_that_matter(document)
    return not weeks or reached(weeks) >= GOOD


def reached(weeks: Sequence[WeekPart]) -> float:
    """Return the mean share of the target that readiness reaches."""
    return mean(min(1.0, max(0.0, week.readiness) / max(1.0, week.target)) for week in weeks)


def worst_of(weeks: Sequence[WeekPart]) -> WeekPart:
    """Return the week that is farthest below its target."""
    return min(weeks, key=lambda week: week.readiness / max(1.0, week.target))


def weeks_that_matter(document: PlanDocument) -> list[WeekPart]:
    """Return the weeks with a match of the highest priority there is."""
    for priority in Priority:
        weeks = _with(document, priority)
        if weeks:
            return weeks
    return []


def great_name(week: WeekPart) -> str:
    """Return what the most important match of a week is called."""
    great = min(week.fixtures, key=lambda match: list(Priority).index(match.priority))
    return great.called if great.called != "match" else f"the match of {great.date}"


def _with(document: PlanDocument, priority: Priority) -> list[WeekPart]:
    return [
        week
        for week in document.weeks
        if any(match.priority == priority for match in week.fixtures)
    ]


# --- why ------------------------------------------------------------------------------------


def _reasons(document: PlanDocument, found: Sequence[Limit], worst: WeekPart) -> list[str]:
    told = [_crowded(document), _costly(found), _many(document), _off(found, worst)]
    told += [_short(document, worst), *map(_safe, document.helps)]
    return [each for each in told if each] or _in_the_way(found)


def _crowded(document: PlanDocument) -> str:
    weeks, without = len(document.weeks), len(_without_room(document))
    if without < CROWDED * weeks:
        return ""
    return f"In {without} of {weeks} weeks matches or breaks leave no room to train all qualities."


def _costly(found: Sequence[Limit]) -> str:
    cost = max((limit.match_cost for limit in found), default=0.0)
    return f"Matches and travel just before cost up to {cost:.0f} points." if cost >= COSTLY else ""


def _many(document: PlanDocument) -> str:
    """Say so where more matches are great than a season can be at its best for."""
    great = {
        match.event or match.date
        for week in document.weeks
        for match in week.fixtures
        if match.priority.great
    }
    weeks = {week.week for week in document.weeks if any(m.priority.great for m in week.fixtures)}
    span = max(weeks, default=0) - min(weeks, default=0) + 1
    if len(great) <= FEW or span >= APART * (len(weeks) - 1):
        return ""
    return (
        f"{len(great)} matches are ranked high, where a side can be at its best for a few: rank "
        "only those high that the season is for."
    )


def _off(found: Sequence[Limit], worst: WeekPart) -> str:
    """Say so where a break ended just before the worst match."""
    limit = next(
        (each for each in found if each.week == index_of(worst.week) and each.closed), None
    )
    if limit is None:
        return ""
    since = f"{limit.back} open week{'' if limit.back == 1 else 's'}" if limit.back else "just"
    return f"A break of {limit.closed} week{'' if limit.closed == 1 else 's'} ended {since} before."


def _short(document: PlanDocument, worst: WeekPart) -> str:
    """Say so where there are few open weeks before the worst match."""
    before = sum(week.block is not None for week in document.weeks[: index_of(worst.week)])
    if before >= SHORT:
        return ""
    first = document.weeks[0].readiness
    weeks = f"{before} open week{'' if before == 1 else 's'}"
    return f"It has {weeks} to build in before that match, from {first:.0f}."


def _safe(each: HelpPart) -> str:
    """Say what a rule that keeps people safe costs the worst match."""
    if not each.safety:
        return ""
    cost = f"{each.points:.1f} points"
    return f"The rule {each.rule}, which keeps people safe, costs it at least {cost}."


def _in_the_way(found: Sequence[Limit]) -> list[str]:
    """Return the rules most in the way, where nothing in the calendar is."""
    stops = in_the_way(found)
    alone = [each for each in stops if each.alone]
    told = [asked_by(each.rule) for each in (alone or stops)[:2]]
    return [f"Most in the way of a step more: {' and '.join(told)}."] if told else []


def _without_room(document: PlanDocument) -> set[int]:
    given = [each for each in document.waivers if each.qualities and each.weeks]
    return {week for each in given for week in each.weeks}


# --- what would help ------------------------------------------------------------------------


def _helps(document: PlanDocument, worst: WeekPart) -> list[str]:
    """Return the changes that were found to help enough; nothing where none was."""
    enough = min(HELPS, HELPING * (worst.target - worst.readiness))
    helps = [each for each in document.helps if not each.safety and each.points >= enough]
    return [f"What would help most: {'; or '.join(map(_help, helps))}."] if helps else []


def _help(each: HelpPart) -> str:
    gain = f"at least {each.points:.1f} points for {one_line(each.fixture, 30)}"
    if each.match is not None:
        day = f"{each.match:%a} {each.match.day} {each.match:%b}"
        return f"leaving out the match of {day}, or resting the side in it: {gain}"
    if each.words:
        return f"{each.words} (rule {each.rule}): {gain}"
    if not each.step:
        return f"doing without the rule {each.rule}: {gain}"
    return f"a looser rule {each.rule} ({each.step}): {gain}"
