"""A week to be put on its days, and what choices of days are worth."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from optimiser.days.day import Day, Kind, WeekOfDays, minutes_of
from optimiser.days.done_days import NOTHING_DONE, DoneDays
from optimiser.days.holds import DayHold
from optimiser.days.pieces import Held, Piece, Spread
from optimiser.days.practice import Practices
from optimiser.days.spacing_settings import DaySettings, SessionLimits
from optimiser.domain.quality import Place

# What is liked less costs more, in hundredths (for load, of one AU); engineering choices. Load is
# best four and five days before a match
# and least on the eve (Oliva-Lozano et al. 2022, Biol Sport 39(2):397-406; Silva H. et al. 2023,
# SCJ 45(5):568-77).
LOAD_COST = {"MD-1": 8, "MD-2": 4, "MD-3": 1, "MD-4": 0, "MD-5": 0, "MD+1": 8, "MD+2": 5}
USUAL_LOAD_COST = 1
# Strength early, last heavy lifting three days before a match that matters (Travis et al. 2020,
# Sports 8(9):125).
LIFTING_COST = {"MD-1": 2400, "MD-2": 1200, "MD-3": 300}
LIFTING_COST_HIGH = {"MD-1": 6000, "MD-2": 3000, "MD-3": 300}
# Top speed two days before a match, else three, if there are five days or more between matches
# (Buchheit et al. 2023, Biol Sport 40(4):1057-67).
SPEED_COST = {2: 0, 3: 800}
NO_SPEED_TOUCH = 2000
SPEED_TURNAROUND = 5
DOUBLE, HARD_DAY, NEIGHBOURS, AWAY_FROM_PRACTICE, GYM_WITH_PRACTICE = 1000, 300, 600, 400, 200


@dataclass(frozen=True)
class Task:
    """A week to be placed.

    Parameters
    ----------
    pieces, counts
        Work and number of sessions of each place.
    practices
        Team practice.
    holds
        What a person asks of it: see :class:`~optimiser.days.holds.DayHold`.
    stay
        The week as it was before that was asked: as little as can be is moved.
    extra
        Minutes of a session beside the plan's own work: warm-up and standing work, at most.
    done
        What of it has been done, on which days.
    """

    days: WeekOfDays
    pieces: Mapping[Place, Sequence[Piece]]
    counts: Mapping[Place, int]
    practices: Practices
    settings: DaySettings
    limits: SessionLimits
    holds: tuple[DayHold, ...] = ()
    stay: "Placed | None" = None
    extra: int = 0
    done: DoneDays = NOTHING_DONE

    @property
    def asked(self) -> bool:
        """Tell whether something of it stands on days that nobody may choose."""
        return bool(self.holds) or self.done.recorded

    @property
    def practised(self) -> Practices:
        """Return team practice as it may be, once a person has asked it off some days."""
        off = {hold.day for hold in self.holds if hold.thing == "practice" and not hold.on}
        return self.practices.kept_off(off)

    def longest(self, place: Place) -> int:
        """Return the longest session of a place, in minutes."""
        return self.limits.field_minutes if place == "field" else self.limits.gym_minutes


NO_STARTS: Mapping[tuple[Place, int], int | None] = MappingProxyType({})
NO_PRACTICE: Mapping[int, int | None] = MappingProxyType({})


class StartTimes(NamedTuple):
    """Starts in minutes of the day, None where the hours of the day leave none.

    Parameters
    ----------
    starts
        By place and day (0 Monday to 6 Sunday).
    practice
        By day, for every day with team practice.
    """

    starts: Mapping[tuple[Place, int], int | None] = NO_STARTS
    practice: Mapping[int, int | None] = NO_PRACTICE


class Put(NamedTuple):
    """The sessions of one place: their days, rising, and how the work is shared out."""

    days: tuple[int, ...]
    spread: Spread


class Placed(NamedTuple):
    """A placed week.

    Parameters
    ----------
    faults
        How often it had to break a spacing.
    cost
        Faults and what is liked less, hours included, where these are known.
    """

    field: Put
    gym: Put
    faults: int
    clock: StartTimes = StartTimes()
    cost: int = 0


class Marks(NamedTuple):
    """All that one place's sessions mean to the other's: days as bits, minutes of primers.

    ``minutes`` are those of each day, 0 where there is no session.
    """

    used: int
    hard: int
    speed: int
    jumps: int
    primers: tuple[int, ...]
    minutes: tuple[int, ...]


class DayChoice(NamedTuple):
    """One place's sessions on days, with what is wrong and what is liked less about them."""

    faults: int
    cost: int
    put: Put
    marks: Marks


def days_for(task: Task, count: int) -> list[int]:
    """Return the days to choose from: those open to training, unless they are too few."""
    fit = [day.index for day in task.days if day.trainable]
    if len(fit) >= count:
        return fit
    free = [day.index for day in task.days if day.kind is not Kind.MATCH]
    return free if len(free) >= count else [day.index for day in task.days]


def marks_of(days: Sequence[Day], sessions: Sequence[Held]) -> Marks:
    """Return what sessions on these days mean to the other place's."""
    bits = [1 << day.index for day in days]
    pairs = list(zip(bits, sessions, strict=True))
    minutes = {day.index: held.minutes for day, held in zip(days, sessions, strict=True)}
    return Marks(
        used=sum(bits),
        hard=sum(bit for bit, held in pairs if held.hard),
        speed=sum(bit for bit, held in pairs if held.speed),
        jumps=sum(bit for bit, held in pairs if held.jumps),
        primers=tuple(
            held.minutes
            for day, held in zip(days, sessions, strict=True)
            if day.kind is Kind.PRIMER
        ),
        minutes=tuple(minutes.get(index, 0) for index in range(7)),
    )


def choice_of(
    task: Task, place: Place, days: Sequence[Day], spread: Spread, marks: Marks
) -> DayChoice:
    """Return sessions on these days with what they are worth on their own."""
    cost = spread.cost + sum(
        _day_cost(task, place, day, held) for day, held in zip(days, spread.sessions, strict=True)
    )
    if place == "gym":
        cost += NEIGHBOURS * (marks.used & marks.used << 1).bit_count()
    return DayChoice(
        faults=sum(
            _faults_of(task, day, held) for day, held in zip(days, spread.sessions, strict=True)
        ),
        cost=cost,
        put=Put(tuple(day.index for day in days), spread),
        marks=marks,
    )


def _faults_of(task: Task, day: Day, held: Held) -> int:
    """Count what one session breaks on its own."""
    wrong = int(not held.pieces) + int(not day.trainable)
    wrong += int(held.hard and not (day.hard and _has_hours(task, day, held)))
    return wrong + int(day.kind is Kind.PRIMER and held.above_touch)


def _has_hours(task: Task, day: Day, held: Held) -> bool:
    """Tell whether hard work can begin inside the hours that matches leave it, and end in time."""
    first, last = _starts(task, day, held.minutes + task.extra, hard=True)
    return not day.window or first <= last


def _day_cost(task: Task, place: Place, day: Day, held: Held) -> int:
    cost = held.load * LOAD_COST.get(day.label, USUAL_LOAD_COST)
    if held.lifting:
        lifting = lifting_costs(task).get(day.label, 0)
        cost += lifting if held.hard else lifting // 2
    practice = day.index in task.practices.usual
    if place == "field":
        return cost + (0 if practice else AWAY_FROM_PRACTICE)
    return cost + (GYM_WITH_PRACTICE if practice else 0)


def lifting_costs(task: Task) -> dict[str, int]:
    """Return what lifting costs by the name of the day: more before a match that matters."""
    played = {day.fixture.priority for day in task.days if day.fixture}
    return LIFTING_COST_HIGH if any(each.great for each in played) else LIFTING_COST


def worth_of(task: Task, field: DayChoice, gym: DayChoice) -> tuple[int, int]:
    """Return faults and cost of a pair."""
    faults, cost = between(task, field.marks, gym.marks)
    return field.faults + gym.faults + faults, field.cost + gym.cost + cost


def between(task: Task, ours: Marks, theirs: Marks) -> tuple[int, int]:
    """Return the faults and the cost of field and gym together beyond those of each alone."""
    hard, speed = ours.hard | theirs.hard, ours.speed | theirs.speed
    doubles = (ours.used & theirs.used).bit_count()
    settings = task.settings
    faults = _crowded(settings, hard, speed, ours.jumps | theirs.jumps, ours.used | theirs.used)
    faults += max(0, doubles - settings.doubles)
    if doubles:
        faults += sum(not _fit(task, day, ours, theirs) for day in task.days)
    faults += sum(minutes > settings.primer_minutes for minutes in _primers(task, ours, theirs))
    return faults, DOUBLE * doubles + HARD_DAY * hard.bit_count() + _speed_cost(task, speed)


def floor_of(task: Task, marks: Marks) -> tuple[int, int]:
    """Return the faults and the cost that :func:`between` is never below, whatever it is with."""
    faults = _crowded(task.settings, marks.hard, marks.speed, marks.jumps, marks.used)
    return faults, HARD_DAY * marks.hard.bit_count()


def _crowded(settings: DaySettings, hard: int, speed: int, jumps: int, used: int) -> int:
    """Count the days of a kind of work that follow another by less than they must."""
    return (
        _near(hard, hard, -(-settings.hard_hours // 24))
        + _near(jumps, jumps, settings.jump_days)
        + _near(used, used, settings.session_days)
        + _near(hard, speed, settings.speed_days)
    )


def _fit(task: Task, day: Day, field: Marks, gym: Marks) -> bool:
    """Tell whether a day has hours for a field and a gym session after each other."""
    if not (field.used & gym.used) >> day.index & 1:
        return True
    long = [marks.minutes[day.index] + task.extra for marks in (field, gym)]
    (first, last), (gym_first, gym_last) = (
        _starts(task, day, minutes, hard=bool(marks.hard >> day.index & 1))
        for marks, minutes in zip((field, gym), long, strict=True)
    )
    between_them = 60 * task.settings.same_day_hours
    gym_after = max(gym_first, first + long[0]) <= gym_last
    return gym_after or max(first, gym_first + long[1] + between_them) <= last


def _starts(task: Task, day: Day, minutes: int, *, hard: bool) -> tuple[int, int]:
    """Return the first and the last minute at which a session may begin."""
    settings = task.settings
    first = minutes_of(settings.earliest)
    last = min(minutes_of(settings.latest), minutes_of(settings.closes) - minutes)
    if hard and day.window:
        first, last = max(first, day.window[0]), min(last, day.window[1])
    return first, last


def _near(before: int, after: int, apart: int) -> int:
    """Count the days of ``after`` that follow one of ``before`` by less than ``apart`` days."""
    return sum((before << step & after).bit_count() for step in range(1, apart))


def _primers(task: Task, ours: Marks, theirs: Marks) -> Iterator[int]:
    """Yield the minutes of every primer day, field and gym together."""
    if ours.primers or theirs.primers:
        both = [iter(ours.primers), iter(theirs.primers)]
        for day in task.days:
            if day.kind is Kind.PRIMER:
                pairs = zip((ours, theirs), both, strict=True)
                yield sum(next(left) for marks, left in pairs if marks.used >> day.index & 1)


def _speed_cost(task: Task, speed: int) -> int:
    """Return what it costs to have top speed elsewhere than close before a match."""
    costs = [
        SPEED_COST[day.until] if speed >> day.index & 1 else NO_SPEED_TOUCH
        for day in speed_days(task.days)
        if day.until is not None
    ]
    return min(costs, default=0) if speed else 0


def speed_days(days: Iterable[Day]) -> Iterator[Day]:
    """Yield the days best for a touch of top speed."""
    for day in days:
        if day.until in SPEED_COST and day.trainable:
            turnaround = None if day.since is None else day.since + (day.until or 0)
            if turnaround is None or turnaround >= SPEED_TURNAROUND:
                yield day
