"""What is said once with every plan."""

from collections.abc import Sequence

from cli.render.terminal import bullet
from optimiser.days.spacing_settings import SCHOOL as SCHOOL_HOURS
from optimiser.domain.season import Season

#: Topics: supervision and clearance, return to play, gradual top speed, pain, the young, what the
#: model cannot see. Basis: Caterisano et al. (2019), Strength and Conditioning Journal 41(3): 1-23
#: (screening and a gradual return after breaks); Faigenbaum et al. (2009), Journal of Strength and
#: Conditioning Research 23(5) Supplement: S60-S79 (the young).
CARE = (
    "A planning aid built on group averages, not a medical device: readiness is an index to steer "
    "by and no forecast. It sees no heat, illness, sleep or ground. The coach decides.",
    "Work under qualified supervision and after medical clearance. Whoever is hurt or coming back "
    "is outside this plan until the medical team says so; local policy comes first.",
    "Come back to top speed step by step, the more so after a break. Stop at pain, dizziness or a "
    "change in how someone moves.",
    "Under 18: fewer and lighter sets, no work at 90 % or more of a single lift, small steps, at "
    "most 3 days a week that are not in a row, supervised throughout.",
)

BREAK = (
    "After the break before week {week}: screen again and bring work back in steps; the first "
    "weeks back are when most harm is done."
)


SCHOOL = (
    "All who train are under 18 and their hours of school are not given: they are assumed to be at "
    "school from {start:%H:%M} to {end:%H:%M}, Monday to Friday, in holidays too. What is so "
    'goes into [rules.spacing], as in school = ["08:00", "16:00"]; [] says that there are none.'
)


def season_care_text(season: Season) -> str:
    """Return the notes as text."""
    return club_care_text([season])


def club_care_text(seasons: Sequence[Season]) -> str:
    """Return the notes of several seasons as text, each once."""
    notes = dict.fromkeys(note for season in seasons for note in care_notes(season))
    return "\n".join(["Care:", *map(bullet, notes)])


def care_notes(season: Season) -> list[str]:
    """Return the notes, one on the breaks of two weeks and more, and one on assumed hours."""
    return [*CARE[:3], *_breaks(season), *CARE[3:], *_school(season)]


def _school(season: Season) -> list[str]:
    """Say that hours of school are assumed, where they are."""
    start, end = SCHOOL_HOURS
    return [SCHOOL.format(start=start, end=end)] if season.school_assumed else []


def _breaks(season: Season) -> list[str]:
    back, run = [], 0
    for week in season.weeks:
        if run >= 2 and not week.closed:
            back.append(str(week.number))
        run = run + 1 if week.closed else 0
    return [BREAK.format(week=" and ".join(back))] if back else []
