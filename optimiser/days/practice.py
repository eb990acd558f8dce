"""Team practice on the days of a week."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Self

from optimiser.days.day import Day, Kind, WeekOfDays, minutes_of
from optimiser.domain.practice import PracticeWeek
from optimiser.domain.season import Week
from optimiser.domain.weekday import Weekday

#: Per cent of its usual length by which practice may be longer before there is one more
#: (engineering choice).
LONGER = 10
#: Days taken first where nothing else is said: those on which load is most before a match
#: (Oliva-Lozano et al. 2022, Biol Sport 39(2):397-406), then those around them.
BY_LABEL = ("MD-4", "MD-3", "MD-2", "MD-5", "MD-1", "MD+2", "MD-6", "MD+1")
#: The same far from any match.
BY_WEEKDAY = (1, 3, 0, 2, 4, 5, 6)


@dataclass(frozen=True)
class Practices:
    """The team practices of a week.

    Parameters
    ----------
    count
        How many.
    order
        Days they may be on (0 Monday to 6 Sunday), best first.
    fixed
        Days that are given; the others are placed.
    minutes, load
        Length and AU of one.
    starts
        Minute of the day by day, where it is given.
    within
        True if field work of the day is the first part of practice.
    """

    count: int = 0
    order: tuple[int, ...] = ()
    fixed: tuple[int, ...] = ()
    minutes: int = 0
    load: int = 0
    starts: Mapping[int, int] = field(default_factory=dict)
    within: bool = False

    def kept_off(self, days: Collection[int]) -> Self:
        """Return them with those given on some days free to go to others, at the same time."""
        moved = [day for day in self.fixed if day in days]
        if not moved:
            return self
        times = [self.starts[day] for day in moved if day in self.starts]
        elsewhere = dict.fromkeys(self.order, times[0]) if times else {}
        fixed = tuple(day for day in self.fixed if day not in days)
        return replace(self, fixed=fixed, starts={**elsewhere, **self.starts})

    @property
    def usual(self) -> frozenset[int]:
        """Return the days that are best, whatever else is on them."""
        return frozenset(self.order[: self.count])


def week_practices(
    week: Week,
    days: WeekOfDays,
    usual: PracticeWeek,
    done: Collection[int] = (),
    until: int = 0,
) -> Practices:
    """Return a week's team practices.

    Parameters
    ----------
    usual
        Practice of the week's phase; its own weekdays come first.
    done
        Days on which it has taken place, and stands.
    until
        So many days of the week are over: what is left is on others, if it can.
    """
    free = [day for day in days if day.kind not in (Kind.MATCH, Kind.CLOSED, Kind.TRAVEL)]
    wanted = [day.number for day in usual.days]
    held = [day.index for day in free if day.index in done]
    count = max(practice_count(week, usual), _given(week, usual, free), len(held))
    count = min(count, len(free))
    ranked = sorted(
        free, key=lambda day: (day.index not in held, day.index < until, *_rank(day, wanted))
    )
    load = -(-week.practice_load // count) if count else 0
    starts = {day.number: usual.start(day) for day in usual.days}
    return Practices(
        count=count,
        order=tuple(day.index for day in ranked),
        fixed=tuple(day.index for day in ranked[:count] if day.index in {*wanted, *held}),
        minutes=round(load / usual.rpe) if usual.rpe else round(usual.minutes),
        load=load,
        starts={day: minutes_of(time) for day, time in starts.items() if time is not None},
        within=usual.field == "within",
    )


def practice_count(week: Week, usual: PracticeWeek) -> int:
    """Return how many practices a week's practice load stands for: with less of it each is shorter.

    None is longer than usual for another that is left out.
    """
    one = usual.load(1)
    if week.practice_load == 0:
        return 0
    return max(1, -(-(100 * week.practice_load - LONGER * one) // (100 * one))) if one else 1


def _given(week: Week, usual: PracticeWeek, free: Sequence[Day]) -> int:
    """Return how many practices are on days of their own: with less load they are shorter."""
    if not 0 < week.practice_load <= usual.load(usual.sessions):
        return 0
    wanted = {day.number for day in usual.days}
    return min(usual.sessions, sum(day.index in wanted for day in free))


def _rank(day: Day, wanted: Sequence[int]) -> tuple[int, int, int]:
    if day.index in wanted:
        return 0, wanted.index(day.index), 0
    named = BY_LABEL.index(day.label) if day.label in BY_LABEL else 4
    return 2 if is_resting(day) else 1, named, BY_WEEKDAY.index(day.index)


def is_resting(day: Day) -> bool:
    """Return True for a weekly day of rest, and for Sundays."""
    return day.kind is Kind.REST or day.index == Weekday.SUNDAY.number
