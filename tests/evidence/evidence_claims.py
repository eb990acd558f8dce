"""What the table of evidence says, each with a function that works out our side of it.

A row that disagrees with its source says so and why; `test_evidence_table.py` fails when a row
agrees that is said to differ, or the other way round.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from statistics import fmean

import numpy as np
from evidence_days import (
    demo,
    eve_over_hard_days,
    hard_days_over_others,
    highest_chronic_load,
    longest_without,
    repetitions,
    times,
    weeks_with_top_speed,
    young_lines,
)
from evidence_sources import SOURCES, Source
from made_seasons import make_plan, make_quality, make_season
from session_rpe import session_load
from sevens_year import GAMES, IN, PRE, planned_sevens, whole_load
from sprint_profile import force_velocity, fraction_at

from optimiser.athlete.sled import load_for
from optimiser.athlete.sprint import distance_to
from optimiser.athlete.strength import one_rm, percent_for
from optimiser.domain.fixture import Priority
from optimiser.domain.quality import Dose
from optimiser.domain.season import Phase
from optimiser.response.readiness import kernel
from optimiser.review.score import quality_curve, training_load, training_minutes
from optimiser.setup.qualities import default_qualities

QUALITIES = {quality.key: quality for quality in default_qualities()}


@dataclass(frozen=True)
class Claim:
    """One row: what was published, what we work out, and between which figures it should lie.

    Parameters
    ----------
    ours
        What `value` works out, in words.
    agrees
        False where we know that we differ; `note` then says why.
    solved
        True if a whole season is planned for it: the figure is then told as a round one.
    """

    source: str
    says: str
    ours: str
    value: Callable[[], float]
    low: float
    high: float
    unit: str
    agrees: bool = True
    note: str = ""
    solved: bool = False

    @property
    def published(self) -> Source:
        """Return the publication."""
        return SOURCES[self.source]

    def holds(self) -> bool:
        """Return True if our figure lies where the source says."""
        return self.low <= self.value() <= self.high


def taper(count):
    """Return the cut of what ``count`` gives a week, over the two weeks up to high fixtures."""
    season, plan = demo()
    cuts = []
    for week in season.weeks_with(Priority.HIGH):
        usual = [w for w in range(week - 6, week - 1) if w >= 0 and not season.weeks[w].closed]
        if len(usual) < 5 or season.weeks[week - 1].closed:
            continue
        last = fmean(count(season, plan, w) for w in (week - 1, week))
        cuts.append(1 - last / fmean(count(season, plan, w) for w in usual))
    return 100 * fmean(cuts)


def trained_load(season, plan, week):
    """Return own work and practice of a week, in AU."""
    return training_load(season, plan, week) + season.weeks[week].practice_load


def by_phase(phase, count):
    """Return the mean of ``count`` over the weeks of a phase in which something is trained."""
    season, plan = demo()
    weeks = [w.index for w in season.weeks if w.phase is phase and not w.closed]
    return fmean(count(season, plan, week) for week in weeks)


def gym(_, plan, week):
    """Return the gym sessions of a week."""
    return plan.gym[week]


def block_weeks():
    """Return the mean weeks from the start of one block to the next one of the same stretch."""
    season, plan = demo()
    gaps = [b - a for a, b in pairwise(plan.starts) if not _closed(season, range(a, b))]
    return fmean(gaps)


def _closed(season, weeks):
    return any(season.weeks[week].closed for week in weeks)


def most_near_top_speed():
    """Return the most metres near top speed that a week of the plan asks for in full."""
    season, plan = demo()
    index = season.keys.index("sprint")
    bands = season.qualities[index].bands
    return max(
        bands[rung].amounts.get("near_top_speed_m", 0)
        for rung, dose in zip(plan.rungs[index], plan.doses[index], strict=True)
        if rung is not None and dose is Dose.FULL
    )


def kept(key, doses, weeks=12):
    """Return per cent of a built level left after ``weeks`` of ``doses`` by turns."""
    quality = QUALITIES[key]
    pattern = [doses[week % len(doses)] for week in range(weeks)]
    row = [Dose.FULL] * 60 + [Dose.REDUCED, Dose.TOUCH] + pattern
    top = len(quality.bands) - 1
    season = make_season(len(row), qualities=[quality])
    plan = make_plan(season, [0], [[top]], [row])
    curve = quality_curve(season, plan, 0)
    return 100 * curve[-1] / curve[61]


@cache
def published_kernel():
    """Return our kernel with the teaching constants, in units of one full week's load."""
    constants = {"tau_fitness": 45, "tau_fatigue": 15, "fatigue_ratio": 2.0}
    quality = make_quality("sprint", "field", bands=2).model_copy(update=constants)
    season = make_season(30, qualities=[quality]).model_copy(update={"fatigue_scale": 1.0})
    points = kernel(season).points[0][:, -1, Dose.FULL]
    return points / -points[0]


def best_week():
    """Return the lag, in days, at which a week of load helps most by the kernel."""
    return 7.0 * int(np.argmax(published_kernel()))


def turning_week():
    """Return the first lag, in days, at which a week of load does good by the kernel."""
    return 7.0 * int(np.argmax(published_kernel() > 0))


def sevens_fall():
    """Return the fall of load in season below pre-season, matches included, per cent."""
    season, plan = planned_sevens()
    return 100 * (1 - whole_load(season, plan, IN) / whole_load(season, plan, PRE))


def sevens_games():
    """Return the load before the games over that in season, own work and practice, per cent."""
    season, plan = planned_sevens()
    games, ours = (
        fmean(trained_load(season, plan, week) for week in weeks) for weeks in (GAMES, IN)
    )
    return 100 * games / ours


def bands(key, amount):
    """Return one amount of every band of a quality that has it."""
    return [band.amounts[amount] for band in QUALITIES[key].bands if amount in band.amounts]


CLAIMS = (
    Claim(
        "bosquet",
        "cutting volume by 41-60 % over two weeks did best",
        "cut of own minutes over the two weeks up to high fixtures of a planned season",
        lambda: taper(training_minutes),
        41,
        60,
        "%",
        solved=True,
    ),
    Claim(
        "bosquet",
        "the 41-60 % speak of all training",
        "the same with team practice counted in",
        lambda: taper(trained_load),
        41,
        60,
        "%",
        agrees=False,
        solved=True,
        note="practice is the club's and is not cut by the plan",
    ),
    Claim(
        "rogerson",
        "a lighter week every 5.6 +- 2.3 weeks",
        "weeks from one block to the next in a planned season; each opens with a lighter week",
        block_weeks,
        3.3,
        7.9,
        "weeks",
        solved=True,
    ),
    Claim(
        "weldon",
        "in season two or three gym sessions a week are most common",
        "mean gym sessions a week in season of a planned season",
        lambda: by_phase(Phase.IN, gym),
        2,
        3,
        "sessions",
        agrees=False,
        solved=True,
        note="field sessions are planned beside the gym, and crowded weeks hold fewer of both",
    ),
    Claim(
        "weldon",
        "out of season three or four",
        "mean gym sessions a week in pre-season of a planned season",
        lambda: by_phase(Phase.PRE, gym),
        3,
        4,
        "sessions",
        solved=True,
    ),
    Claim(
        "jeong",
        "load of a pre-season week about 2.5 times that of a week in season, without matches",
        "own work and practice, pre-season over in season, of a planned season",
        lambda: by_phase(Phase.PRE, trained_load) / by_phase(Phase.IN, trained_load),
        1.4,
        2.6,
        "times",
        agrees=False,
        solved=True,
        note="one club, one week each; a plan here keeps the season's load far more even",
    ),
    Claim(
        "oliva",
        "most load four and three days before a match",
        "load of such a day over that of the other days of training, usual weeks in season",
        hard_days_over_others,
        1.01,
        100,
        "times",
        solved=True,
    ),
    Claim(
        "oliva",
        "least load on the eve of a match",
        "load on the eve, of that four and three days before",
        eve_over_hard_days,
        0,
        99,
        "%",
        solved=True,
        note="nothing is planned there, and practice is asked to keep off it",
    ),
    Claim(
        "sevens",
        "internal load in season 38 +- 3 % below pre-season, competitions included",
        "the same of a year of that shape under default rules, matches included",
        sevens_fall,
        35,
        41,
        "%",
        agrees=False,
        solved=True,
        note="we leave it to the coach: `phase_load` asks for a share of training, without matches",
    ),
    Claim(
        "sevens",
        "training before the games rises again (distance +21 +- 13 % of pre-season)",
        "own work and practice before the games, of that in season",
        sevens_games,
        100.5,
        250,
        "%",
        solved=True,
    ),
    Claim(
        "malone",
        "90-120 m a week at top speed, at high chronic load only",
        "most metres near top speed that a week of a planned season asks for",
        most_near_top_speed,
        0,
        120,
        "m",
        solved=True,
        note="metres of runs that reach it, acceleration included: less is run above 90 %",
    ),
    Claim(
        "malone",
        "a run at 95 % of top speed or more each week",
        "weeks in season that hold sprints, of a planned season",
        weeks_with_top_speed,
        100,
        100,
        "%",
        solved=True,
    ),
    Claim(
        "malone",
        "90-120 m were safest at a chronic load of 4750 AU or more",
        "highest mean load of four weeks, matches included, of a planned season",
        highest_chronic_load,
        4750,
        20000,
        "AU",
        agrees=False,
        solved=True,
        note="our squads train less; what is said of many metres is not said of them, so bands "
        "stay at the low end",
    ),
    Claim(
        "ronnestad",
        "one session a week kept strength, one a fortnight did not",
        "most weeks from one with maximal strength to the next, in season, of a planned season",
        lambda: longest_without("max_strength"),
        1,
        1,
        "week",
        solved=True,
    ),
    Claim(
        "ronnestad",
        "one session a week kept squat strength for 12 weeks",
        "maximal strength left after 12 weeks of one reduced session each, top band",
        lambda: kept("max_strength", [Dose.REDUCED]),
        92,
        110,
        "%",
    ),
    Claim(
        "ronnestad",
        "one session a fortnight lost about 10 % (figure from memory)",
        "maximal strength left after a full session each fortnight for 12 weeks",
        lambda: kept("max_strength", [Dose.NONE, Dose.FULL]),
        85,
        95,
        "%",
        agrees=False,
        note="a linear response loses more; `exposure` asks for it every week, so no plan does so",
    ),
    Claim(
        "spiering",
        "strength held up to 32 weeks on a third of the work if the load stays",
        "maximal strength left after 32 weeks of one touch each, top band",
        lambda: kept("max_strength", [Dose.TOUCH], 32),
        92,
        110,
        "%",
        agrees=False,
        note="a touch builds 0.55 of a full dose here, so level falls towards that: on the safe "
        "side, as plans then train strength more than once needed",
    ),
    Claim(
        "issurin",
        "maximal strength outlasts top speed (30 against 5 days)",
        "time constant of maximal strength over that of sprint",
        lambda: QUALITIES["max_strength"].tau_fitness / QUALITIES["sprint"].tau_fitness,
        1.01,
        6,
        "times",
        note="the order is published, the constants are our choice",
    ),
    Claim(
        "banister",
        "load does harm on the day if later than about 16 days before (15.6 worked)",
        "first whole week of good by our kernel with the published constants passed in",
        turning_week,
        15.6,
        22.6,
        "days",
    ),
    Claim(
        "banister",
        "load helps most about 40 days before",
        "week of the highest value of our kernel with the published constants passed in",
        best_week,
        36.8,
        43.8,
        "days",
    ),
    Claim(
        "benton",
        "97.5 % of top speed after 26.6 m",
        "metres to 97.5 % by our curve through 95 % at 20.05 m",
        lambda: distance_to(0.975, 9.8015, 1),
        26.5,
        26.7,
        "m",
    ),
    Claim(
        "benton",
        "nobody is at 95 % of top speed after 10 m",
        "share of top speed after 10 m by our curve",
        lambda: 100 * float(fraction_at(10, 9.8015, 1)),
        80,
        90,
        "%",
    ),
    Claim(
        "samozino",
        "power of sprinters 1680 W from 638 N and 10.5 m/s",
        "power by our force-velocity line of that force and speed",
        lambda: force_velocity(vmax=10.5, tau=80 * 10.5 / 638, mass_kg=80).power,
        1672,
        1688,
        "W",
    ),
    Claim(
        "cross_2017",
        "power is highest at half of top speed, at 69-96 % of body mass one by one",
        "load that costs half of top speed, without a test of one's own",
        lambda: load_for(50),
        69,
        96,
        "% of body mass",
        note="above both group means (78 and 82 %): our line comes from boys on turf",
    ),
    Claim(
        "cahill",
        "50 % of speed lost at 89 +- 8 % of body mass",
        "load that costs half of top speed, without a test of one's own",
        lambda: load_for(50),
        81,
        97,
        "% of body mass",
    ),
    Claim(
        "petrakos",
        "30 % of speed lost and 30 % of body mass begin the same class (from memory)",
        "load that costs 30 % of top speed, without a test of one's own",
        lambda: load_for(30),
        29,
        31,
        "% of body mass",
        agrees=False,
        note="our line comes from sleds pushed on turf, where a load costs less speed; bands are "
        "named by the speed that is lost, not by mass",
    ),
    Claim(
        "haugen",
        "50-150 m at top speed a session",
        "most metres near top speed of a default sprint band",
        lambda: max(bands("sprint", "near_top_speed_m")),
        50,
        150,
        "m",
    ),
    Claim(
        "nsca_chart",
        "5 repetitions at 87 % of the 1RM",
        "share of the 1RM for 5 repetitions",
        lambda: percent_for(5),
        87,
        87,
        "%",
    ),
    Claim(
        "reynolds",
        "100 kg five times is a chest press 1RM of 113.8 +- 3.0 kg",
        "our estimate from the same set",
        lambda: one_rm(100, 5),
        110.8,
        116.8,
        "kg",
    ),
    Claim(
        "potach",
        "at most 140 contacts a session for the advanced",
        "most contacts of a default jump band",
        lambda: max(bands("plyometrics", "contacts")),
        24,
        140,
        "contacts",
    ),
    Claim(
        "baz_valle",
        "12-20 weekly sets a muscle build",
        "weekly sets for the legs on the bottom bands of general and maximal strength",
        lambda: bands("general_strength", "hard_sets")[0] + bands("max_strength", "hard_sets")[0],
        12,
        20,
        "sets",
    ),
    Claim(
        "foster",
        "load is rating times minutes: an hour rated 7 is 420",
        "load of such a session",
        lambda: session_load(7, 60),
        420,
        420,
        "AU",
    ),
    Claim(
        "petersen",
        "lowering of the trunk in pre-season three times a week, 12, 10 and 8 (weeks 5-10)",
        "repetitions a week in pre-season of a planned season",
        lambda: repetitions(Phase.PRE, "Hamstrings"),
        90,
        90,
        "repetitions",
        agrees=False,
        solved=True,
        note="ours is the smaller schedule of van der Horst, twice a week",
    ),
    Claim(
        "petersen",
        "then once a week 12, 10 and 8",
        "repetitions a week in season of a planned season",
        lambda: repetitions(Phase.IN, "Hamstrings"),
        30,
        30,
        "repetitions",
        solved=True,
    ),
    Claim(
        "van_der_horst",
        "lowering of the trunk twice a week, 10, 9 and 8 (weeks 6-13)",
        "repetitions a week in pre-season of a planned season",
        lambda: repetitions(Phase.PRE, "Hamstrings"),
        54,
        54,
        "repetitions",
        solved=True,
    ),
    Claim(
        "haroy",
        "adduction three times a week in pre-season",
        "times a week in pre-season of a planned season",
        lambda: times(Phase.PRE, "Adduction"),
        3,
        3,
        "times",
        solved=True,
    ),
    Claim(
        "haroy",
        "and once a week in season",
        "times a week in season of a planned season",
        lambda: times(Phase.IN, "Adduction"),
        1,
        1,
        "times",
        solved=True,
    ),
    Claim(
        "lloyd",
        "beginners under 18 lift at 60 % or less (from memory)",
        "heaviest load on the cards of a beginner of 15, every week of a planned season",
        lambda: max(line.percent[1] for line in young_lines()),
        0,
        60,
        "%",
        solved=True,
    ),
    Claim(
        "lloyd",
        "in one or two sets (from memory)",
        "most sets of a lift on these cards",
        lambda: max(line.sets for line in young_lines()),
        1,
        2,
        "sets",
        solved=True,
    ),
)
