"""What was tested and what was trained, on one line of days."""

import datetime as dt
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

#: Days whose mean load stands for what was trained before the log begins.
OPENING = 28


@dataclass(frozen=True)
class MeasuredResult:
    """One test result; larger is better.

    Parameters
    ----------
    athlete
        Who was tested; empty if the result is the squad's.
    """

    date: dt.date
    value: float
    athlete: str = ""


@dataclass(frozen=True)
class Load:
    """The load of one day, in AU; an athlete's, or the squad's mean."""

    date: dt.date
    value: float
    athlete: str = ""


@dataclass(frozen=True)
class Record:
    """Tests and loads of one quality.

    Parameters
    ----------
    loads
        Shape ``(days,)``, AU a day, from the first day of the log on; 0 where nothing is logged.
    days
        Shape ``(tests,)``: day of each test, rising, counted from the first day of the log.
    results
        Shape ``(tests,)``, in the unit of the test: means of those tested that day.
    """

    loads: Floats
    days: Ints
    results: Floats

    def head(self, tests: int) -> "Record":
        """Return the record as it was after so many tests."""
        return Record(self.loads, self.days[:tests], self.results[:tests])

    def before(self) -> float:
        """Return the daily load taken for the time before the log, in AU."""
        return float(self.loads[:OPENING].mean())


def make_record(results: Sequence[MeasuredResult], loads: Sequence[Load]) -> Record:
    """Put results and loads on one line of days.

    Athletes tested on different days are made comparable: each result is taken from its athlete's
    own mean, and the mean of all is added again. Tests before the log begins are left out.

    Raises
    ------
    ValueError
        If there is no load or no result on or after its first day.
    """
    if not loads:
        raise ValueError("no load is logged")
    first = min(load.date for load in loads)
    kept = [result for result in results if result.date >= first]
    if not kept:
        raise ValueError("no test lies on or after the first day of the log")
    last = max(max(load.date for load in loads), max(result.date for result in kept))
    by_day = _means(kept)
    days = sorted(by_day)
    return Record(
        loads=_daily(loads, first, (last - first).days + 1),
        days=np.array([(day - first).days for day in days], dtype=np.int64),
        results=np.array([by_day[day] for day in days]),
    )


def _daily(loads: Sequence[Load], first: dt.date, count: int) -> Floats:
    """Return the load of each day: sessions of one athlete add up, athletes are averaged."""
    athletes = {load.athlete for load in loads}
    daily = np.zeros(count)
    for load in loads:
        daily[(load.date - first).days] += load.value / len(athletes)
    return daily


def _means(results: Sequence[MeasuredResult]) -> dict[dt.date, float]:
    own: dict[str, list[float]] = defaultdict(list)
    for result in results:
        own[result.athlete].append(result.value)
    middle = {athlete: float(np.mean(values)) for athlete, values in own.items()}
    level = float(np.mean([result.value for result in results]))
    tested: dict[dt.date, list[float]] = defaultdict(list)
    for result in results:
        tested[result.date].append(result.value - middle[result.athlete] + level)
    return {day: float(np.mean(values)) for day, values in tested.items()}
