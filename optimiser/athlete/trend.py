"""What changed from test to test, and whether that is more than the test's own error.

A change of one athlete counts only beyond 1.96 x sqrt(2) x error: two tests of nothing new differ
by less in 19 of 20 cases (Hopkins 2000, Sports Medicine 30(1): 1-15, on typical error). Of a squad
it counts where the interval of the mean change leaves out zero.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import NormalDist, fmean, stdev

from optimiser.athlete.measured import LIFTED, SPLIT, Measured

#: Error from test to test in per cent, where the file has too few tests taken twice on one day. Of
#: a 1RM: Grgic et al. (2020), Sports Medicine - Open 6: 31; the others are usual values. All from
#: memory.
ERRORS = {"lift": 4.0, "split": 1.5, "jump": 5.0, "other": 5.0}
#: Fewest tests taken twice from which the error is worked out.
LEAST_PAIRS = 10
BOTH_SIDES = 1.96
#: Fewest athletes of a squad's mean change.
LEAST_ATHLETES = 5


@dataclass(frozen=True)
class Trend:
    """One test of one athlete, or of a squad.

    Parameters
    ----------
    athlete
        Empty for the squad.
    tests
        Number of results; of athletes, for the squad.
    first, last
        Results, or means.
    change, noise
        In per cent of the first; up to ``noise`` a change says nothing.
    verdict
        ``better``, ``worse``, ``noise`` or ``one test``.
    """

    athlete: str
    test: str
    tests: int
    first: float
    last: float
    change: float
    noise: float
    verdict: str


def lower_is_better(test: str) -> bool:
    """Return True for times and for losses of speed."""
    return test.endswith(("_s", "_loss_pct"))


def error_of(test: str, results: Iterable[Measured]) -> float:
    """Return the error of a test in per cent: from tests taken twice on a day, else a usual one."""
    days: dict[tuple[str, object], list[float]] = {}
    for each in results:
        if each.test == test:
            days.setdefault((each.athlete.casefold(), each.date), []).append(each.value)
    pairs = [values[:2] for values in days.values() if len(values) > 1]
    if len(pairs) < LEAST_PAIRS:
        return ERRORS[_kind(test)]
    squares = [(200 * (one - two) / (one + two)) ** 2 for one, two in pairs]
    return sqrt(fmean(squares) / 2)


def _kind(test: str) -> str:
    if LIFTED.fullmatch(test):
        return "lift"
    if SPLIT.fullmatch(test):
        return "split"
    return "jump" if "jump" in test or test.startswith("cmj") else "other"


def trends(results: Sequence[Measured]) -> list[Trend]:
    """Return the trend of every test: of the squad, then of each athlete, in the order of names."""
    found: list[Trend] = []
    for test in sorted({each.test for each in results}):
        noise = BOTH_SIDES * sqrt(2) * error_of(test, results)
        own = [_athlete(test, rows, noise) for rows in _by_athlete(test, results)]
        squad = _squad(test, [each for each in own if each.tests > 1])
        found += [*([squad] if squad else []), *own]
    return found


def _by_athlete(test: str, results: Iterable[Measured]) -> list[list[Measured]]:
    """Return the rows of a test, one a day: the mean of a day's results."""
    rows: dict[str, dict[object, list[Measured]]] = {}
    for each in sorted(results, key=lambda row: row.date):
        if each.test == test:
            rows.setdefault(each.athlete, {}).setdefault(each.date, []).append(each)
    return [
        [day[0].model_copy(update={"value": fmean(e.value for e in day)}) for day in days.values()]
        for _, days in sorted(rows.items())
    ]


def _athlete(test: str, rows: Sequence[Measured], noise: float) -> Trend:
    first, last = rows[0].value, rows[-1].value
    change = 100 * (last - first) / first
    verdict = _verdict(test, change, noise) if len(rows) > 1 else "one test"
    return Trend(rows[0].athlete, test, len(rows), first, last, change, noise, verdict)


def _squad(test: str, own: Sequence[Trend]) -> Trend | None:
    """Return the squad's mean change with a t interval; None of too few athletes."""
    if len(own) < LEAST_ATHLETES:
        return None
    changes = [each.change for each in own]
    noise = _t(len(own) - 1) * stdev(changes) / sqrt(len(own))
    first, last = fmean(each.first for each in own), fmean(each.last for each in own)
    change = fmean(changes)
    return Trend("", test, len(own), first, last, change, noise, _verdict(test, change, noise))


def _verdict(test: str, change: float, noise: float) -> str:
    if abs(change) <= noise:
        return "noise"
    return "better" if (change < 0) == lower_is_better(test) else "worse"


def _t(freedom: int) -> float:
    """Return the two-sided 95 % point of Student's t, by Hill's expansion about the normal one."""
    z = NormalDist().inv_cdf(0.975)
    first = (z**3 + z) / 4
    second = (5 * z**5 + 16 * z**3 + 3 * z) / 96
    third = (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384
    return z + first / freedom + second / freedom**2 + third / freedom**3
