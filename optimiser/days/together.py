"""Put a week's sessions on its days for several groups at once: what they share is on one day."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, product
from typing import NamedTuple

from optimiser.days.common import Work, common_spreads
from optimiser.days.pieces import Spread
from optimiser.days.placing import (
    DOUBLE,
    DayChoice,
    Marks,
    Placed,
    Task,
    between,
    choice_of,
    days_for,
    floor_of,
    marks_of,
    worth_of,
)
from optimiser.days.shared_days import kept_together, place_jointly, roomy
from optimiser.days.timetable import place_week
from optimiser.domain.quality import Place

Days = tuple[int, ...]
#: Faults first, then cost.
Worth = tuple[int, int]
#: Some of the tasks, by index.
Cluster = tuple[int, ...]
#: Worse than any week can be.
NOTHING_YET: Worth = (10**6, 0)
NO_COST: Worth = (0, 0)


class _Option(NamedTuple):
    """One place's sessions on the same days for several groups, one choice a group.

    ``least`` is what it comes to with half of what it must come to together with the other place,
    all twice: two options together are never worth less than half the sum of theirs.
    """

    worth: Worth
    least: Worth
    choices: tuple[DayChoice, ...]


class _BestPairs(NamedTuple):
    """The best of a search: for every task its field and its gym sessions."""

    worth: Worth
    pairs: dict[int, tuple[DayChoice, DayChoice]]


def place_together(tasks: Sequence[Task]) -> list[Placed]:
    """Return the best days for the same week of several groups, one a task.

    All groups have their field sessions on the same days and their gym sessions on the same days;
    a group with fewer leaves some of them out. A quality is done in the same sessions by all, so
    far as no spacing is broken for that; else as few groups as can be share their work out
    otherwise on the same days. Every choice is tried; groups alike are placed as one alone would
    be.

    Parameters
    ----------
    tasks
        At least one; with the same days, practice and settings.
    """
    alike: dict[int, int] = {}
    for index, task in enumerate(tasks):
        alike[index] = next(known for known in (*alike, index) if tasks[known] == task)
    different = sorted(set(alike.values()))
    if len(different) == 1:
        return [place_week(tasks[0])] * len(tasks)
    mine = [tasks[index] for index in different]
    found = _with_practice(mine, _best(mine))
    return [found[different.index(alike[index])] for index in range(len(tasks))]


def _with_practice(tasks: Sequence[Task], found: list[Placed]) -> list[Placed]:
    """Return the days found, or others where hours or practice beside them are too much.

    Room for the longest warm-ups is looked for first.
    """
    for asked in (roomy(tasks), tasks):
        if kept_together(asked, found):
            return found
        if (other := place_jointly(asked)) is not None:
            return other
    return found


def _best(tasks: Sequence[Task]) -> list[Placed]:
    best = _BestPairs(NOTHING_YET, {})
    for clusters in _partitions(tuple(range(len(tasks)))):
        if best.worth[0] == 0:
            break
        found = _AlikeDays(tasks, clusters).run()
        if found.worth[0] < best.worth[0]:
            best = found
    return [_placed(task, *best.pairs[index]) for index, task in enumerate(tasks)]


def _partitions(items: Cluster) -> list[tuple[Cluster, ...]]:
    """Return every way to part items into clusters, the fewest clusters first."""

    def parted(rest: Cluster) -> Iterator[tuple[Cluster, ...]]:
        if not rest:
            yield ()
            return
        for size in range(len(rest) - 1, -1, -1):
            for others in combinations(rest[1:], size):
                left = tuple(item for item in rest[1:] if item not in others)
                yield from (((rest[0], *others), *more) for more in parted(left))

    return sorted(parted(items), key=len)


def _placed(task: Task, field: DayChoice, gym: DayChoice) -> Placed:
    return Placed(field.put, gym.put, worth_of(task, field, gym)[0])


class _AlikeDays:
    """Finds the best days where the groups of a cluster share out their work alike."""

    def __init__(self, tasks: Sequence[Task], clusters: Sequence[Cluster]) -> None:
        self.tasks, self.clusters = tasks, clusters
        self.known: dict[tuple[int, Marks, Marks], Worth] = {}
        self.options: dict[Place, list[dict[Days, list[_Option]]]] = {
            "field": self._options("field"),
            "gym": self._options("gym"),
        }

    def run(self) -> _BestPairs:
        """Return the best; on a tie, the one on the earlier days."""
        best = _BestPairs(NOTHING_YET, {})
        for least, fields, gyms in self._days():
            if least >= _twice(best.worth):
                break
            found = self._on(fields, gyms, _less(_twice(best.worth), least))
            if found.worth < best.worth:
                best = found
        return best

    def _days(self) -> list[tuple[Worth, Days, Days]]:
        """Return every choice of days with twice the least it can be worth, best first."""
        fields, gyms = self.options["field"], self.options["gym"]
        return sorted(
            (
                _sum(
                    [
                        *(of[days][0].least for of in fields),
                        *(of[other][0].least for of in gyms),
                        _twice(self._doubled(range(len(self.tasks)), days, other)),
                    ]
                ),
                days,
                other,
            )
            for days, other in product(fields[0], gyms[0])
        )

    def _doubled(self, cluster: Iterable[int], fields: Days, gyms: Days) -> Worth:
        """Return what days with two sessions come to for the groups that have all sessions."""
        both = len(set(fields) & set(gyms))
        sizes = {"field": len(fields), "gym": len(gyms)}
        tasks = [self.tasks[index] for index in cluster]
        full = [task for task in tasks if dict(task.counts) == sizes]
        over = sum(max(0, both - task.settings.doubles) for task in full)
        return over, DOUBLE * both * len(full)

    def _on(self, fields: Days, gyms: Days, slack: Worth) -> _BestPairs:
        """Return the best way on some days, if twice it is within ``slack`` of the least."""
        worth = NO_COST
        pairs: dict[int, tuple[DayChoice, DayChoice]] = {}
        options = zip(self.clusters, self.options["field"], self.options["gym"], strict=True)
        for cluster, field, gym in options:
            doubled = self._doubled(cluster, fields, gyms)
            floor = _sum([field[fields][0].least, gym[gyms][0].least, _twice(doubled)])
            most = _sum([floor, slack])
            found = self._cluster(cluster, field[fields], gym[gyms], doubled, most)
            worth = _sum([worth, found.worth])
            pairs |= found.pairs
        return _BestPairs(worth, pairs)

    def _cluster(
        self,
        cluster: Cluster,
        fields: Sequence[_Option],
        gyms: Sequence[_Option],
        doubled: Worth,
        most: Worth,
    ) -> _BestPairs:
        """Return a cluster's best pair that is worth less than half of ``most``; else any pair."""
        best, worth = (fields[0], gyms[0]), NOTHING_YET
        for field in fields:
            for gym in gyms:
                if _sum([field.least, gym.least, _twice(doubled)]) >= most:
                    break
                found = self._together(cluster, field, gym)
                if _twice(found) < most:
                    most, worth, best = _twice(found), found, (field, gym)
        chosen = zip(best[0].choices, best[1].choices, strict=True)
        return _BestPairs(worth, dict(zip(cluster, chosen, strict=True)))

    def _together(self, cluster: Cluster, field: _Option, gym: _Option) -> Worth:
        faults, cost = _sum([field.worth, gym.worth])
        for index, ours, theirs in zip(cluster, field.choices, gym.choices, strict=True):
            key = (index, ours.marks, theirs.marks)
            if key not in self.known:
                self.known[key] = between(self.tasks[index], ours.marks, theirs.marks)
            more = self.known[key]
            faults, cost = faults + more[0], cost + more[1]
        return faults, cost

    def _options(self, place: Place) -> list[dict[Days, list[_Option]]]:
        """Return for every cluster its options by days, best first."""
        count = max(task.counts[place] for task in self.tasks)
        days = list(combinations(days_for(self.tasks[0], count), count))
        return [self._of_cluster(place, cluster, days, count) for cluster in self.clusters]

    def _of_cluster(
        self, place: Place, cluster: Cluster, days: Sequence[Days], count: int
    ) -> dict[Days, list[_Option]]:
        tasks = [self.tasks[index] for index in cluster]
        work = [Work(task.pieces[place], task.counts[place]) for task in tasks]
        spreads = common_spreads(work, count, tasks[0].longest(place), tasks[0].limits)
        return {on: _options_on(place, tasks, on, spreads) for on in days}


def _options_on(
    place: Place, tasks: Sequence[Task], days: Days, spreads: Sequence[tuple[Spread, ...]]
) -> list[_Option]:
    """Return the best option for everything it can mean to the other place, best first."""
    best: dict[tuple[Marks, ...], _Option] = {}
    known: dict[tuple[int, Spread], DayChoice] = {}
    for each in spreads:
        for key in enumerate(each):
            if key not in known:
                known[key] = _choice(place, tasks[key[0]], days, key[1])
        choices = tuple(known[key] for key in enumerate(each))
        worth = _sum([(made.faults, made.cost) for made in choices])
        floors = [floor_of(task, made.marks) for task, made in zip(tasks, choices, strict=True)]
        option = _Option(worth, _sum([_twice(worth), *floors]), choices)
        marks = tuple(made.marks for made in choices)
        if marks not in best or option.worth < best[marks].worth:
            best[marks] = option
    return sorted(best.values(), key=lambda option: option.least)


def _choice(place: Place, task: Task, days: Days, spread: Spread) -> DayChoice:
    """Return one group's choice: what it has no session for is left out."""
    count = task.counts[place]
    kept = list(range(len(days)))
    if len(days) > count:
        kept = [number for number in kept if spread.sessions[number].pieces]
    place_of = {number: new for new, number in enumerate(kept)}
    own = Spread(
        tuple(tuple(place_of[number] for number in way) for way in spread.ways),
        tuple(spread.sessions[number] for number in kept),
        spread.cost,
    )
    on = [task.days[days[number]] for number in kept]
    made = choice_of(task, place, on, own, marks_of(on, own.sessions))
    return made._replace(faults=made.faults + abs(len(kept) - count))


def _twice(worth: Worth) -> Worth:
    return 2 * worth[0], 2 * worth[1]


def _less(worth: Worth, by: Worth) -> Worth:
    return worth[0] - by[0], worth[1] - by[1]


def _sum(parts: Sequence[Worth]) -> Worth:
    return sum(part[0] for part in parts), sum(part[1] for part in parts)
