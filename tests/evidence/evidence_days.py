"""A planned season week by week, on its days and on cards, for the table of evidence."""

from functools import cache
from itertools import pairwise
from statistics import fmean

from demo_seasons import load, solve

from cli.days import week_maker
from cli.files.scenario_rules import read_rules
from cli.holding import restart_of
from optimiser.athlete.card import week_choices, week_info
from optimiser.athlete.cards import card
from optimiser.athlete.squad import Athlete
from optimiser.days.session_days import with_days
from optimiser.domain.quality import Dose
from optimiser.domain.season import Phase
from optimiser.review.score import training_load

DEMO = "hockey_two_halves"
#: Weeks of a phase that are put on days: enough to be usual, few enough to be quick.
MOST = 2
LIFTS = {key: {"one_rm_kg": 100} for key in ("squat", "bench_press", "front_squat")}


@cache
def demo():
    """Return a demo season of 52 weeks and its plan."""
    loaded = load(DEMO)
    return loaded.season, solve(DEMO).plan


@cache
def on_days(index):
    """Return a week of the demo on its days, and what its cards say of it."""
    season, plan = demo()
    loaded = load(DEMO)
    rules = read_rules(loaded)
    maker = week_maker(loaded, rules)
    days = maker.week(plan, index)
    return days, with_days(week_info(season, plan, index, restart_of(rules)), days, maker)


@cache
def usual_weeks(phase):
    """Return weeks of the second half of a phase: in season, with one match and none near it."""
    season, _ = demo()
    played = [fixture.date for fixture in season.fixtures]
    found = [
        week.index
        for week in season.weeks
        if week.phase is phase
        and not week.closed
        and (phase is not Phase.IN or _calm(week, played))
    ]
    return found[len(found) // 2 :][:MOST]


def _calm(week, played):
    if len(week.fixtures) != 1:
        return False
    apart = sorted(abs((day - week.fixtures[0].date).days) for day in played)
    return apart[1] >= 7


def load_by_day(*labels):
    """Return the mean load of such days of usual weeks in season, own work and practice, in AU."""
    days = [day for index in usual_weeks(Phase.IN) for day in on_days(index)[0].days]
    return fmean(day.load for day in days if day.label in labels)


def hard_days_over_others():
    """Return the load of MD-4 and MD-3 over that of the other days of training, as means."""
    return load_by_day("MD-4", "MD-3") / load_by_day("MD-5", "MD-2", "MD-1", "MD+1", "MD+2")


def eve_over_hard_days():
    """Return the load of MD-1, per cent of that of MD-4 and MD-3."""
    return 100 * load_by_day("MD-1") / load_by_day("MD-4", "MD-3")


def standing(phase, name):
    """Return the parts of one kind of standing work, week by week."""
    return [
        [part for session in on_days(index)[1].sessions for part in session.standing
         if part.name == name]
        for index in usual_weeks(phase)
    ]  # fmt: skip


def times(phase, name):
    """Return how often a week such work is done."""
    return fmean(map(len, standing(phase, name)))


def repetitions(phase, name):
    """Return the repetitions of such work in a week, of a span the middle."""
    items = [[item for part in week for item in part.work] for week in standing(phase, name)]
    return fmean(sum(item.sets * fmean(item.reps) for item in week) for week in items)


def young_lines():
    """Return the lifts with a load on the cards of a beginner of 15, of every week."""
    season, plan = demo()
    who = Athlete(name="Ada", group="squad", body_mass_kg=60, age=15, lifts=LIFTS)
    open_weeks = [week.index for week in season.weeks if not week.closed]
    made = [
        card(who, week_choices(season, plan, index), week_info(season, plan, index))
        for index in open_weeks
    ]
    return [line for each in made for part in each.sections for line in part.lines if line.percent]


def longest_without(key):
    """Return the most weeks from one week in season that trains a quality to the next."""
    season, plan = demo()
    row = plan.doses[season.keys.index(key)]
    held = [
        week.index
        for week in season.weeks
        if week.phase is Phase.IN and row[week.index] is not Dose.NONE
    ]
    return max(
        b - a for a, b in pairwise(held) if not any(season.weeks[w].closed for w in range(a, b))
    )


def weeks_with_top_speed():
    """Return the weeks in season in which sprints are trained, per cent."""
    season, plan = demo()
    row = plan.doses[season.keys.index("sprint")]
    weeks = [week.index for week in season.weeks if week.phase is Phase.IN and not week.closed]
    return 100 * fmean(row[week] is not Dose.NONE for week in weeks)


def highest_chronic_load():
    """Return the highest mean load of four weeks in a row, matches and practice included, in AU."""
    season, plan = demo()
    loads = [training_load(season, plan, week.index) + week.fixed_load for week in season.weeks]
    return max(fmean(loads[at : at + 4]) for at in range(len(loads) - 3))
