"""Many random seasons: does every week that the rule lets through have a timetable, and how fast?

python -m tests.benchmarks.timetables --seasons 125
"""

import argparse
import datetime as dt
import random
import statistics
import sys
import time
from collections import Counter
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "days")]

from test_spacing_promise import WEEKS, calendar, kept  # noqa: E402

from constraints.session_caps import SessionCaps  # noqa: E402
from constraints.spacing import Spacing  # noqa: E402
from optimiser.days.week import WeekMaker  # noqa: E402
from optimiser.domain.plan import Plan  # noqa: E402
from optimiser.domain.practice import Practice, PracticeWeek  # noqa: E402
from optimiser.domain.quality import Dose  # noqa: E402
from optimiser.domain.season import Season  # noqa: E402
from optimiser.domain.weekday import Weekday  # noqa: E402

EVENING = {"earliest": dt.time(18), "latest": dt.time(20, 30), "closes": dt.time(22)}
SCHOOL = {"school": (dt.time(8), dt.time(15, 30)), "session_days": 2}
CLUBS = {
    "full time": ({}, None),
    "full time, practice given": ({}, dt.time(10)),
    "evenings": (EVENING, None),
    "evenings, practice given": (EVENING, dt.time(19)),
    "school hours": (SCHOOL, None),
}
GAPS = (2, 3, 4, 5, 6, 7, 7, 7, 7, 8, 14)
KICKOFFS = (None, "12:30", "15:00", "19:45")


def practice(random_: random.Random, given: dt.time | None) -> PracticeWeek:
    """Return practice placed, or given on two or three weekdays."""
    if given is None:
        return PracticeWeek(sessions=random_.randrange(4))
    days = tuple(random_.sample(list(Weekday)[:5], random_.choice([2, 3])))
    return PracticeWeek(days=days, times=(given,), field=random_.choice(["before", "within"]))


def season(random_: random.Random, usual: PracticeWeek):
    """Return four weeks with matches two to fourteen days apart."""
    matches, day = {}, random_.randrange(7)
    while day < 7 * WEEKS:
        matches[day] = random_.choice(KICKOFFS)
        day += random_.choice(GAPS)
    made = calendar(matches, [])
    weeks = tuple(
        week.model_copy(
            update={
                "practice": usual,
                "practice_load": usual.load(min(usual.sessions, week.open_days)),
            }
        )
        for week in made.weeks
    )
    return made.model_copy(update={"weeks": weeks})


def capped(plan: Plan, season: Season) -> Plan:
    """Return a plan with the fullest doses lowered until every session is as long as may be."""
    rows = [list(row) for row in plan.doses]
    while full := {
        (each.week, each.part.partition("_")[0])
        for each in SessionCaps().audit(plan, season)
        if "_" in each.part
    }:
        for week, place in full:
            here = [at for at, each in enumerate(season.qualities) if each.place == place]
            fullest = max(here, key=lambda at: rows[at][week])
            rows[fullest][week] = Dose(rows[fullest][week] - 1)
        plan = plan.model_copy(update={"doses": tuple(map(tuple, rows))})
    return plan


def main() -> None:
    """Print how many weeks have a fault, by kind of club, and the seconds a week takes."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--seasons", type=int, default=125)
    parser.add_argument("--seed", type=int, default=0)
    asked = parser.parse_args()
    random_ = random.Random(asked.seed)
    broken: Counter[str] = Counter()
    tried: Counter[str] = Counter()
    seconds = []
    for _ in range(asked.seasons):
        kind = random_.choice(list(CLUBS))
        hours, given = CLUBS[kind]
        usual, rule = practice(random_, given), Spacing(**hours)
        made = season(random_, usual)
        keys = [quality.key for quality in made.qualities]
        doses = {key: random_.randrange(4) for key in keys}
        plan = kept(rule, made, doses, random_.randint(2, 3), random_.randint(2, 3))
        plan = capped(plan, made)
        if rule.audit(plan, made):
            raise AssertionError("a plan within the rooms must keep the rule")
        maker = WeekMaker(
            made, rule, practice=Practice(off_season=usual, pre_season=usual, in_season=usual)
        )
        for week in range(WEEKS):
            began = time.process_time()
            faults = maker.week(plan, week).faults
            seconds.append(time.process_time() - began)
            tried[kind] += 1
            broken[kind] += bool(faults)
            if faults:
                print(kind, faults, made.weeks[week].number, tried.total(), flush=True)
    for kind in CLUBS:
        print(f"{kind}: {tried[kind]} weeks, {broken[kind]} without a whole timetable")
    print(f"CPU seconds a week: median {statistics.median(seconds):.3f}, most {max(seconds):.2f}")


if __name__ == "__main__":
    main()
