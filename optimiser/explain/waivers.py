"""Waivers: what a plan leaves aside of its rules, as the calendar has no room for it."""

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import groupby

from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.domain.week_number import number_of
from optimiser.domain.wording import listed
from optimiser.rule import Rule

Place = tuple[str, str | None, int | None]


@dataclass(frozen=True)
class Waived:
    """What one rule does not ask, and why.

    Parameters
    ----------
    weeks
        From 1; empty where it is asked of the season as a whole.
    fixtures
        Days of the matches without which it would be asked; empty where breaks or phases are why.
    """

    rule: str
    part: str
    qualities: tuple[str, ...]
    weeks: tuple[int, ...]
    fixtures: tuple[dt.date, ...]
    words: str


def waivers(season: Season, plan: Plan, rules: Sequence[Rule]) -> tuple[Waived, ...]:
    """Return every limit that ``plan`` leaves aside because it yields to the calendar."""
    return tuple(waived for rule in rules for waived in _of_rule(season, plan, rule))


def _of_rule(season: Season, plan: Plan, rule: Rule) -> list[Waived]:
    strict = rule.unyielding()
    if strict is None or rule.price is not None:
        return []
    yielded = _yielded(season, plan, rule, strict)
    found: list[Waived] = []
    for part, group in groupby(sorted(yielded, key=_part), key=_part):
        breaches = list(group)
        days = rule.blamed(season, plan, breaches)
        still = {_place(b) for b in _yielded(without_matches(season, days), plan, rule, strict)}
        by_matches = [breach for breach in breaches if days and _place(breach) not in still]
        others = [breach for breach in breaches if breach not in by_matches]
        for named, given in ((by_matches, days), (others, [])):
            if part in rule.told:
                found += _alike(season, rule, named, given)
    return found


def _alike(
    season: Season, rule: Rule, breaches: Sequence[Breach], days: Sequence[dt.date]
) -> list[Waived]:
    """Return one waiver for all qualities of the same weeks."""
    weeks: dict[str | None, tuple[int, ...]] = {}
    for breach in breaches:
        number = () if breach.week is None else (number_of(breach.week),)
        weeks[breach.quality] = (*weeks.get(breach.quality, ()), *number)
    together: dict[tuple[int, ...], list[str]] = {}
    for quality, theirs in weeks.items():
        together.setdefault(tuple(sorted(set(theirs))), []).extend([quality] if quality else [])
    part = breaches[0].part if breaches else ""
    return [
        Waived(rule.name, part, tuple(keys), at, tuple(days), _words(season, rule, part, keys, at))
        for at, keys in together.items()
    ]


def _yielded(season: Season, plan: Plan, rule: Rule, strict: Rule) -> list[Breach]:
    """Return what breaks the rule only where it does not yield."""
    broken = {_place(breach) for breach in rule.audit(plan, season)}
    return [breach for breach in strict.audit(plan, season) if _place(breach) not in broken]


def _place(breach: Breach) -> Place:
    return breach.part, breach.quality, breach.week


def _part(breach: Breach) -> str:
    return breach.part


def without_matches(season: Season, days: Collection[dt.date]) -> Season:
    """Return the season without the matches of some days, its phases and breaks as they were."""
    weeks = [
        week.model_copy(update={"fixtures": tuple(f for f in week.fixtures if f.date not in days)})
        for week in season.weeks
    ]
    return season.model_copy(update={"weeks": tuple(weeks)})


def _words(season: Season, rule: Rule, part: str, keys: Sequence[str], weeks: Sequence[int]) -> str:
    names = [quality.name for quality in season.qualities if quality.key in keys]
    named = [*names[:1], *(name.lower() for name in names[1:])]
    words = rule.told[part].format(quality=listed(named) if named else "")
    return f"{_weeks(weeks)}: {words}." if weeks else f"{words[0].upper()}{words[1:]}."


def _weeks(weeks: Sequence[int]) -> str:
    """Return weeks in words, those in a row as one span."""
    spans: list[list[int]] = []
    for week in weeks:
        if spans and week == spans[-1][-1] + 1:
            spans[-1].append(week)
        else:
            spans.append([week])
    parts = [f"{span[0]}-{span[-1]}" if len(span) > 1 else f"{span[0]}" for span in spans]
    return f"Week{'' if len(weeks) == 1 else 's'} {', '.join(parts)}"
