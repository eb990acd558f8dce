"""The cheapest repairs: what has to give way, where and by how much, so that a plan exists.

A cheapest way to give is worked out for the demands known to clash; the solver is then asked
whether a plan exists with just that much given. If not, its core names demands that belong to the
argument too, and the question is put again. Every repair that is told comes with a plan that the
mended rules' own audits find nothing wrong with.
"""

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from optimiser.domain.plan import Plan
from optimiser.domain.sentence import UNSAID, Sentence
from optimiser.explain.cheapest import Cheapest, GivingWay, Sizes
from optimiser.explain.clash import Argument
from optimiser.explain.demand import Demand, Key
from optimiser.explain.easing import eased
from optimiser.explain.mend import mended
from optimiser.explain.oracle import Clock, light_solver
from optimiser.explain.reduce import reduced
from optimiser.explain.some_way import some_way
from optimiser.explain.turns import Turns

#: Share of the time that is spent on cheapest ways; the rest is for any way at all.
SHARE = 0.8


@dataclass(frozen=True)
class Give:
    """One demand that gives way.

    Parameters
    ----------
    by
        In the demand's units.
    says
        What that means to a coach.
    """

    demand: Demand
    by: int
    says: Sentence = UNSAID


@dataclass(frozen=True)
class Repair:
    """A set of places in which rules give way, and a plan that is then possible.

    Parameters
    ----------
    gives
        By week, then in the order of the rules.
    cost
        The lower, the sooner it is offered.
    cheapest
        True if it was proven that none of the kind asked for is cheaper.
    plan
        Keeps every rule of the mended season.
    """

    gives: tuple[Give, ...]
    cost: int
    cheapest: bool
    plan: Plan

    @property
    def safety(self) -> bool:
        """Tell whether something that keeps people safe is given up."""
        return any(give.demand.safety for give in self.gives)


class Repairs:
    """Looks for repairs one after the other, cheapest first.

    Parameters
    ----------
    known
        Demands known to clash.
    """

    def __init__(self, argument: Argument, known: Collection[Key]) -> None:
        self._argument = argument
        self._active: set[Key] = set()
        self._turns = Turns()
        self._take_in(known)
        self._found: list[Repair] = []

    def _take_in(self, keys: Collection[Key]) -> None:
        """Add demands to the argument, and those that come up with them."""
        self._active |= self._with_like(keys)

    def _with_like(self, keys: Collection[Key]) -> set[Key]:
        """Return demands, and of a limit that comes up again in another week, all its weeks."""
        limits = Counter(map(_limit, self._active | set(keys)))
        again = {limit for limit, times in limits.items() if times > 1}
        return set(keys) | {key for key in self._argument.demands if _limit(key) in again}

    def find(self, most: int = 3) -> Iterator[Repair]:
        """Yield up to ``most`` repairs.

        Each next one touches other kinds of limits than those before, for as long as there are
        such; after that, it asks for less in at least one place. In front stand those in which one
        limit on many weeks gives way by itself; they are not proven cheapest. If time runs out
        before the first, one is told that is not proven cheapest.
        """
        whole = self._argument.clock
        self._set_clock(Clock(whole.left * SHARE, whole.calls))
        for key in self._wide()[:most]:
            alone = self._alone(key)
            if alone is not None:
                self._found.append(alone)
                yield alone
        for apart in (True, False):
            while len(self._found) < most:
                repair = self._next(apart=apart)
                if repair is None:
                    break
                self._found.append(repair)
                yield repair
        self._set_clock(whole)
        if not self._found and most:
            yield from self._last_resort()

    def _wide(self) -> list[Key]:
        wide = {rule.name for rule in self._argument.rules if rule.wide}
        return [key for key in self._argument.demands if key in self._active and key.rule in wide]

    def _alone(self, key: Key) -> Repair | None:
        """Let one demand give way as far as all others need: cheapest of its kind, not of all."""
        argument = self._argument
        turns = Turns((light_solver,))
        turns.won(light_solver)
        giving = GivingWay(argument.model, argument.demands, argument.clock, turns)
        giving.freeze([other for other in argument.demands if other != key])
        way = giving.cheapest()
        if way is None:
            return None
        return self._checked(replace(way, proven=False), argument.board.read(way.values))

    def _set_clock(self, clock: Clock) -> None:
        self._argument.clock = self._argument.oracle.clock = clock

    def _last_resort(self) -> Iterator[Repair]:
        found = some_way(self._argument, self._active) if self._argument.clock.left else None
        repair = self._checked(*found) if found else None
        if repair is not None:
            yield repair

    def _next(self, *, apart: bool) -> Repair | None:
        argument, floor = self._argument, 0
        while argument.clock.left > 0:
            way = self._giving_way(apart=apart).cheapest(floor=floor)
            if way is None:
                return None
            # with more demands in the argument nothing becomes cheaper
            floor = way.cost if way.proven else floor
            kept = [key for key in argument.oracle.keys if key not in way.sizes]
            answer = argument.oracle.core(kept, loosened=way.sizes)
            if answer.verdict == "possible":
                return self._checked(way, argument.board.read(answer.values))
            if answer.verdict == "unknown" or set(answer.core) <= self._active:
                return None
            self._learn(way.sizes, answer.core)
        return None

    def _learn(self, sizes: Sizes, core: Sequence[Key]) -> None:
        """Take in a core, then further ones, for as long as they bring up something new.

        What a core names is dropped before the next question, but not what is like it: that
        would leave little to clash, and each round of cheapest ways takes longer than a core.
        """
        argument = self._argument
        new: set[Key] = set()
        dropped: set[Key] = set()
        while (found := set(core) - self._active - new) and argument.clock.left > 0:
            new |= self._with_like(new | found)
            dropped |= found
            kept = [k for k in argument.oracle.keys if k not in dropped and k not in sizes]
            core = argument.oracle.core(kept, loosened=sizes).core
        self._take_in(new)

    def _giving_way(self, *, apart: bool) -> GivingWay:
        argument = self._argument
        active = [key for key in argument.demands if key in self._active]
        small = reduced(argument.model, active, argument.helpers)
        demands = {key: argument.demands[key] for key in active}
        giving = GivingWay(small, demands, argument.clock, self._turns)
        for repair in self._found:
            sizes = {give.demand.key: give.by for give in repair.gives}
            if apart:
                giving.forbid_kinds(sizes)
            else:
                giving.forbid_more(sizes)
        return giving

    def _checked(self, way: Cheapest, plan: Plan) -> Repair | None:
        """Return the repair if the plan keeps every rule of the mended season."""
        gives = self._gives(way.sizes, plan)
        loosened = mended(self._argument.rules, [(give.demand, give.by) for give in gives])
        broken = self._argument.breaches(plan, loosened)
        return None if broken else Repair(gives, way.cost, way.proven, plan)

    def _gives(self, sizes: Sizes, plan: Plan) -> tuple[Give, ...]:
        season, rules = self._argument.season, {rule.name: rule for rule in self._argument.rules}
        last = len(season.weeks)
        chosen: Sequence[Demand] = [d for key, d in self._argument.demands.items() if key in sizes]
        chosen = sorted(chosen, key=lambda d: last if d.key.week is None else d.key.week)
        return tuple(
            Give(d, sizes[d.key], eased(rules[d.rule], d, sizes[d.key], season, plan))
            for d in chosen
        )


def _limit(key: Key) -> tuple[str, str, str | None]:
    """Return what a demand limits, wherever it does."""
    return key.rule, key.part, key.quality
