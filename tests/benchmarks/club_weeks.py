"""Timetables of a club: seconds a week, a year and for four squads, beside a plain one-hot model.

python -m tests.benchmarks.club_weeks --weeks 40

All in one run: CPU seconds of one squad's weeks, of the same weeks of four squads on two pitches
and one gym, and of a model with one 0-1 variable for each thing, day and quarter of an hour.
"""

import argparse
import sys
import time
from itertools import product
from pathlib import Path

from ortools.sat.python import cp_model

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "days")]

from day_seasons import at, plan_of, season_of  # noqa: E402

from cli.club import PlannedSquad, club_week, mondays  # noqa: E402
from optimiser.days.shared import Pool, clashes  # noqa: E402
from optimiser.days.week import WeekMaker  # noqa: E402

DOSES = {"sprint": 2, "sled": 1, "jumps": 1, "power": 2, "strength": 2, "upper_body": 1}
POOLS = [
    Pool("Pitches", frozenset({"field", "practice"}), 2, 540, 1290),
    Pool("Gym", frozenset({"gym"}), 1, 420, 1320),
]
#: Length of a slot of the plain model in minutes, and seconds it is given for a week.
SLOT, GUARD = 15, 60.0
DAYS, DAY = 7, 1440


def squads(weeks: int) -> list[PlannedSquad]:
    """Return four squads alike but for their matches, all of which want the same hours."""
    found = []
    for number, day in enumerate((5, 5, 6, 5)):
        matches = [at(week, day, "15:00") for week in range(weeks) if (week + number) % 9]
        season = season_of(*matches, weeks=weeks, practice=[750] * weeks)
        plan = plan_of(season, DOSES, 1, 2)
        found.append(
            PlannedSquad(f"Squad {number + 1}", 3 ** (3 - number), WeekMaker(season), plan)
        )
    return found


def one_hot(week) -> tuple[float, bool]:
    """Return CPU seconds, and whether it was proven, of the plain model of a club's week.

    It moves what the squads' own best weeks hold, and asks less than ours does: rooms, one thing
    at a time for a squad, and nothing between kinds of work.
    """
    model, began = cp_model.CpModel(), time.process_time()
    booked = list(week.booked)
    taken: dict[tuple[str, int], list] = {}
    costs = []
    for number, each in enumerate(booked):
        length = -(-(each.end - each.start) // SLOT)
        day, start = divmod(each.start, DAY)
        slots = range(28, 88 - length)
        on = {key: model.new_bool_var("") for key in product(range(DAYS), slots)}
        model.add_exactly_one(on.values())
        for (other, slot), var in on.items():
            costs.append((abs(slot - start // SLOT) + 20 * (other != day)) * var)
            for used in range(slot, slot + length):
                moment = other * 96 + used
                taken.setdefault((f"squad {each.squad}", moment), []).append((number, var))
                for pool in POOLS:
                    if pool.takes(each.squad, each.use):
                        taken.setdefault((pool.name, moment), []).append((number, var))
    holds = {pool.name: pool.holds for pool in POOLS}
    for (name, _), found in taken.items():
        model.add(sum(var for _, var in found) <= holds.get(name, 1))
    model.minimize(sum(costs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers, solver.parameters.max_time_in_seconds = 1, GUARD
    status = solver.solve(model)
    return time.process_time() - began, status == cp_model.OPTIMAL


def main() -> None:
    """Print all figures."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--weeks", type=int, default=40)
    parser.add_argument("--plain", type=int, default=6, help="Weeks of the plain model.")
    asked = parser.parse_args()
    club = squads(asked.weeks)
    seconds = []
    for week in range(asked.weeks):
        began = time.process_time()
        club[0].maker.week(club[0].plan, week)
        seconds.append(time.process_time() - began)
    seconds.sort()
    middle = seconds[len(seconds) // 2]
    print(f"one squad, {asked.weeks} weeks: {sum(seconds):.1f} s in all, a week {middle:.2f} s in "
          f"the middle, {seconds[-1]:.2f} s at most")  # fmt: skip
    began = time.process_time()
    weeks = [club_week(club, POOLS, monday) for monday in mondays(club)]
    total = time.process_time() - began
    proven = sum(week.shared.proven for week in weeks)
    unfit = sum(bool(clashes(week.booked, POOLS)) for week in weeks)
    print(f"four squads: {total:.1f} s in all, {total / len(weeks):.2f} s a week, {proven} of "
          f"{len(weeks)} proven, {unfit} that do not fit")  # fmt: skip
    plain = [one_hot(week) for week in weeks[: asked.plain]]
    spent = sum(each for each, _ in plain) / len(plain)
    print(f"plain one-hot model: {spent:.2f} s a week over {len(plain)}, "
          f"{sum(done for _, done in plain)} proven")  # fmt: skip


if __name__ == "__main__":
    main()
