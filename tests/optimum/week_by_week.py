"""Stage 1 written anew, week by week, and solved by HiGHS.

Sets: qualities q, weeks w, rungs b, doses d. Variables, all 0-1: ``s[w]`` a block starts in week w,
``z[q,w,b,d]`` quality q stands on rung b at dose d in week w; ``x[q,w,b]`` is the sum of z over d,
``X[q,w,b]`` the sum of x over b and above. No block is a variable, unlike on the board.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

import highspy
import numpy as np

from optimiser.domain.season import Season

DOSES = range(4)
Sum = dict[int, float]


@dataclass(frozen=True)
class Limits:
    """Parameters of the rules, by the names the rules give them."""

    shortest: int
    longest: int
    up: int
    down: int
    reentry_rung: int
    days_off: int
    from_rung: int
    foundation_weeks: int
    within: int
    keep_bands: int
    gap: int
    ceiling: int


@dataclass
class Program:
    """A mixed-integer program, row by row."""

    cost: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    rows: list[tuple[Sum, float, float]] = field(default_factory=list)
    broken: set[int] = field(default_factory=set)

    def part(self, cost: float, upper: float = highspy.kHighsInf) -> int:
        """Return a new continuous variable, from 0 on."""
        var = self.flag(cost)
        self.upper[var] = upper
        self.broken.add(var)
        return var

    def flag(self, cost: float = 0.0) -> int:
        self.cost.append(cost)
        self.upper.append(1.0)
        return len(self.cost) - 1

    def add(self, terms: Sum, low: float = -highspy.kHighsInf, high: float = highspy.kHighsInf):
        self.rows.append((terms, low, high))

    def solve(self) -> float | None:
        """Return the optimum, or None if there is no solution."""
        lp = highspy.HighsLp()
        count = len(self.cost)
        lp.num_col_, lp.num_row_ = count, len(self.rows)
        lp.col_cost_, lp.col_upper_ = np.array(self.cost), np.array(self.upper)
        lp.col_lower_ = np.zeros(count)
        lp.row_lower_ = np.array([low for _, low, _ in self.rows])
        lp.row_upper_ = np.array([high for _, _, high in self.rows])
        kinds = highspy.HighsVarType
        whole, broken = kinds.kInteger, kinds.kContinuous
        lp.integrality_ = [broken if var in self.broken else whole for var in range(count)]
        starts = np.cumsum([0, *(len(terms) for terms, _, _ in self.rows)])
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = starts
        lp.a_matrix_.index_ = np.array([var for terms, _, _ in self.rows for var in terms])
        lp.a_matrix_.value_ = np.array([v for terms, _, _ in self.rows for v in terms.values()])
        return _run(lp)


def _run(lp) -> float | None:
    solver = highspy.Highs.__new__(highspy.Highs)
    super(highspy.Highs, solver).__init__()  # the usual start greets on stdout
    for option, value in (("output_flag", False), ("threads", 1), ("mip_rel_gap", 0.0),
                          ("mip_abs_gap", 0.5), ("time_limit", 120.0)):  # fmt: skip
        solver.setOptionValue(option, value)
    solver.passModel(lp)
    solver.run()
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None
    assert status == highspy.HighsModelStatus.kOptimal, status
    return solver.getInfo().objective_function_value


def least_emphasis(season: Season, limits: Limits, block: int, tolerance: int) -> float | None:
    """Return the least cost of standing off the emphasis, plus ``block`` for each block."""
    return write_emphasis(season, limits, block, tolerance).solve()


def write_emphasis(season: Season, limits: Limits, block: int, tolerance: int) -> Program:
    """Return stage 1 as a program."""
    return _Writer(season, limits, block, tolerance).program


class _Writer:
    def __init__(self, season: Season, limits: Limits, block: int, tolerance: int) -> None:
        self.season, self.limits, self.program = season, limits, Program()
        self.weeks = [week.index for week in season.weeks if not week.closed]
        self.s = {week: self.program.flag(block) for week in self.weeks}
        self.z: dict[tuple[int, int, int, int], int] = {}
        for at, quality in enumerate(season.qualities):
            for week in self.weeks:
                for rung in range(len(quality.bands)):
                    cost = self._cost(at, week, rung, tolerance)
                    for dose in DOSES:
                        self.z[at, week, rung, dose] = self.program.flag(cost)
                self.program.add(self.X(at, week, 0), 1, 1)
        self._blocks()
        for at in range(len(season.qualities)):
            self._held(at)
            self._steps(at)
            self._foundation(at)
            self._reentry(at)
            self._kept(at)
            self._exposure(at)
        self._budget()

    def _cost(self, at: int, week: int, rung: int, tolerance: int) -> float:
        quality = self.season.qualities[at]
        place = round(100 * rung / (len(quality.bands) - 1))
        off = abs(place - self.season.emphasis[at][week]) - tolerance
        return quality.weight * round(max(0.0, off))

    def X(self, at: int, week: int, rung: int, sign: float = 1.0) -> Sum:  # noqa: N802
        """Return the sum that is 1 if quality ``at`` stands on ``rung`` or above."""
        bands = len(self.season.qualities[at].bands)
        return {
            self.z[at, week, above, dose]: sign
            for above in range(max(0, rung), bands)
            for dose in DOSES
        }

    def _blocks(self) -> None:
        """Cut each stretch of one phase without a closed week into blocks of legal length."""
        limits, add = self.limits, self.program.add
        for first, stop in self._stretches():
            add({self.s[first]: 1}, 1, 1)
            if stop - first < limits.shortest:
                add({self.s[week]: 1 for week in range(first, stop)}, 1, 1)
                continue
            for week in range(first, stop):
                near = range(week, min(stop, week + limits.shortest))
                add({self.s[day]: 1 for day in near}, high=1)
                if week + limits.longest < stop:
                    far = range(week, week + limits.longest + 1)
                    add({self.s[day]: 1 for day in far if day > week}, low=1)
                if first < week and stop - week < limits.shortest:
                    add({self.s[week]: 1}, high=0)

    def _stretches(self) -> list[tuple[int, int]]:
        cuts = []
        for week in self.weeks:
            phase = self.season.weeks[week].phase
            if not cuts or cuts[-1][1] != week or self.season.weeks[week - 1].phase != phase:
                cuts.append([week, week])
            cuts[-1][1] = week + 1
        return [(first, stop) for first, stop in cuts]

    def _neighbours(self) -> Iterable[tuple[int, int]]:
        return zip(self.weeks, self.weeks[1:], strict=False)

    def _held(self, at: int) -> None:
        """Let rungs change only where a block starts."""
        for before, week in self._neighbours():
            if week != before + 1:
                continue
            for rung in range(1, len(self.season.qualities[at].bands)):
                up = {**self.X(at, week, rung), **self.X(at, before, rung, -1), self.s[week]: -1}
                down = {**self.X(at, week, rung, -1), **self.X(at, before, rung), self.s[week]: -1}
                self.program.add(up, high=0)
                self.program.add(down, high=0)

    def _steps(self, at: int) -> None:
        limits = self.limits
        for before, week in self._neighbours():
            for rung in range(len(self.season.qualities[at].bands)):
                if rung > limits.up:
                    under = self.X(at, before, rung - limits.up, -1)
                    self.program.add({**self.X(at, week, rung), **under}, high=0)
                if rung > limits.down and week == before + 1:
                    under = self.X(at, week, rung - limits.down, -1)
                    self.program.add({**self.X(at, before, rung), **under}, high=0)

    def _foundation(self, at: int) -> None:
        limits = self.limits
        for place, week in enumerate(self.weeks):
            past = self.weeks[max(0, place - limits.within) : place]
            for rung in range(limits.from_rung - 1, len(self.season.qualities[at].bands)):
                terms = {self.z[at, week, rung, dose]: limits.foundation_weeks for dose in DOSES}
                for day in past:
                    terms |= self.X(at, day, rung - 1, -1)
                self.program.add(terms, high=0)

    def _reentry(self, at: int) -> None:
        off = self.limits.days_off
        for week in self.season.weeks:
            if not week.closed and off >= self.limits.days_off:
                self.program.add(self.X(at, week.index, self.limits.reentry_rung), high=0)
            off = off + 7 if week.closed else 0

    def _kept(self, at: int) -> None:
        """Let no quality fall in the weeks up to a high fixture."""
        peaks = [
            week.index
            for week in self.season.weeks
            if any(fixture.priority == "high" for fixture in week.fixtures)
        ]
        for before, week in self._neighbours():
            near = any(0 <= peak - week < self.limits.keep_bands for peak in peaks)
            if near and week == before + 1:
                for rung in range(1, len(self.season.qualities[at].bands)):
                    now = self.X(at, week, rung, -1)
                    self.program.add({**self.X(at, before, rung), **now}, high=0)

    def _exposure(self, at: int) -> None:
        """Ask for a dose in any ``gap`` open weeks in a row."""
        for place in range(len(self.weeks) - self.limits.gap + 1):
            window = self.weeks[place : place + self.limits.gap]
            bands = range(len(self.season.qualities[at].bands))
            done = [(week, rung, dose) for week in window for rung in bands for dose in (1, 2, 3)]
            self.program.add({self.z[(at, *one)]: 1 for one in done}, low=1)

    def _budget(self) -> None:
        for week in self.weeks:
            terms = {}
            for at, quality in enumerate(self.season.qualities):
                usual = [quality.doses.touch.minutes, quality.doses.reduced.minutes,
                         quality.doses.full.minutes]  # fmt: skip
                for rung, band in enumerate(quality.bands):
                    minutes = [0, *(band.minutes or usual)]
                    for dose in DOSES:
                        whole = Fraction(band.amounts.get("contacts", 0))
                        terms[self.z[at, week, rung, dose]] = round(
                            whole * minutes[dose] / minutes[3]
                        )
            self.program.add(terms, high=self.limits.ceiling)
