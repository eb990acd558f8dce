"""The season cost written anew, week by week, upon the second model of blocks and bands.

Further variables: ``a[i,j]`` a block runs from week i up to week j, ``e[q,w]`` how far a dose is
from that of the week before where nothing explains it, ``f[w]`` how far readiness falls short.
Costs are in ten-thousandths of a point, as they are told.
"""

from week_by_week import DOSES, Limits, Sum, _Writer

from optimiser.domain.rates import Rates
from optimiser.domain.season import Season
from optimiser.joint_model.like import like_before
from optimiser.response.readiness import UNITS, kernel
from optimiser.setup.amounts import sessions_wanted, wanted


def least_season(season: Season, limits: Limits, rates: Rates) -> float | None:
    """Return the least season cost over blocks, bands and doses; None if rules clash."""
    return _Whole(season, limits, rates).program.solve()


class _Whole(_Writer):
    def __init__(self, season: Season, limits: Limits, rates: Rates) -> None:
        self.rates, self.aims = rates, wanted(season)
        super().__init__(season, limits, 0, rates.tolerance)
        self._lengths()
        self._amounts()
        self._steady()
        self._sessions()
        self._short()

    def _cost(self, at: int, week: int, rung: int, tolerance: int) -> float:
        return super()._cost(at, week, rung, tolerance) * round(self.rates.band * UNITS)

    def _lengths(self) -> None:
        """Price each block and its distance from the usual length."""
        rates, add = self.rates, self.program.add
        for first, stop in self._stretches():
            for start in range(first, stop):
                ends: Sum = {}
                for end in range(start + 1, stop + 1):
                    odd = abs(end - start - rates.usual_block)
                    cost = round(rates.block * UNITS) + odd * round(rates.odd_week * UNITS)
                    block = self.program.flag(cost)
                    ends[block] = 1
                    if end < stop:
                        add({block: 1, self.s[end]: -1}, high=0)
                    for inside in range(start + 1, end):
                        add({block: 1, self.s[inside]: 1}, high=1)
                add({**ends, self.s[start]: -1}, 0, 0)

    def _amounts(self) -> None:
        qualities = self.season.qualities
        mean = sum(quality.weight for quality in qualities) / len(qualities)
        for (at, week, _, dose), var in self.z.items():
            off = max(0.0, abs(dose - self.aims[at][week]) - self.rates.slack)
            off = max(off, off + self.rates.far * (off - 1))
            share = qualities[at].weight / mean
            self.program.cost[var] += round(self.rates.amount * share * off * UNITS)

    def _steady(self) -> None:
        like, price = like_before(self.season), round(self.rates.change * UNITS)
        for before, week in self._neighbours():
            if week != before + 1 or not like[week]:
                continue
            free = {self.s[week]: -3.0, self.s[before]: -3.0}
            for at in range(len(self.season.qualities)):
                off = self.program.part(price)
                now, then = self._dose(at, week), self._dose(at, before)
                more = {**now, **{var: -dose for var, dose in then.items()}}
                less = {var: -dose for var, dose in more.items()}
                self.program.add({**more, **free, off: -1}, high=0)
                self.program.add({**less, **free, off: -1}, high=0)

    def _dose(self, at: int, week: int) -> Sum:
        bands = range(len(self.season.qualities[at].bands))
        return {self.z[at, week, rung, dose]: dose for rung in bands for dose in DOSES if dose}

    def _sessions(self) -> None:
        """Price each session less than wanted; a touch fills one, more work two at most."""
        for week in self.weeks:
            aims = sessions_wanted(self.season, week)
            for place, aim in zip(("field", "gym"), aims, strict=True):
                here = [at for at, q in enumerate(self.season.qualities) if q.place == place]
                held: Sum = {}
                for at in here:
                    held |= {var: min(dose, 2) for var, dose in self._dose(at, week).items()}
                few = self.program.part(round(self.rates.session * UNITS))
                self.program.add({**held, few: 1.0}, low=aim)

    def _short(self) -> None:
        tables, outside = kernel(self.season).whole()
        for week in self.weeks:
            here = self.season.weeks[week]
            goal = round(here.target * UNITS) - round(self.rates.below * UNITS)
            short = self.program.part(self.rates.week(here) / 1.0)
            ready: Sum = {short: 1.0}
            for (at, past, rung, dose), var in self.z.items():
                if past <= week and (gain := int(tables[at][week - past, rung, dose])):
                    ready[var] = gain
            self.program.add(ready, low=goal - int(outside[week]))
