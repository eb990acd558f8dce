"""The smallest clash: rules at weeks that cannot be kept together, each shown to be needed."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from optimiser.board.model import Model
from optimiser.change.decided import Decided
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.season import Season
from optimiser.explain.alone import alone
from optimiser.explain.demand import Demand, Key, breach_key, demands_of
from optimiser.explain.oracle import (
    Call,
    Clock,
    Oracle,
    Verdict,
    ask_outright,
    second_solver,
    tight_solver,
)
from optimiser.explain.reduce import reduced
from optimiser.explain.shrink import in_order, shrink
from optimiser.explain.soft_board import soft_board
from optimiser.review.audit import STRUCTURE, must_breaches
from optimiser.rule import Rule

#: Seconds for one clash; then it is told as sufficient, not proven smallest.
CAP = 3.0
#: Most demands of a clash for which it is worked out what each alone would have to give.
FEW = 12


@dataclass(frozen=True)
class Clash:
    """Demands that cannot be kept together.

    Parameters
    ----------
    demands
        By week, then in the order of the rules.
    minimal
        True if each of them was shown to be needed: without it the others can be kept.
    confirmed
        True if a second configuration of the solver, without assumptions, agreed.
    alone
        For each demand by how many of its units it would have to give way if it alone did; None
        where no time was left for it, and empty where it was not asked.
    """

    demands: tuple[Demand, ...]
    minimal: bool
    confirmed: bool = False
    alone: tuple[int | None, ...] = ()

    @property
    def keys(self) -> tuple[Key, ...]:
        """Return the names of its demands."""
        return tuple(demand.key for demand in self.demands)

    @property
    def rank(self) -> tuple[bool, int, int, int]:
        """Return what makes a clash hard to take in: kinds of limits, demands, safety rules."""
        kinds = {(key.rule, key.part) for key in self.keys}
        safe = sum(demand.safety for demand in self.demands)
        return not self.minimal, len(kinds), len(self.demands), safe


@dataclass(frozen=True)
class Finding:
    """What is known about whether a season can be planned at all.

    Parameters
    ----------
    verdict
        ``clash``, ``possible`` or ``unknown``.
    clashes
        Independent of each other: no two share a demand. The simplest comes first.
    more
        True if there may be further ones; False if without these a plan exists.
    plan
        A plan that keeps every rule, if it is possible.
    calls
        The questions put to the solver, in order.
    """

    verdict: Verdict
    clashes: tuple[Clash, ...] = ()
    more: bool = False
    plan: Plan | None = None
    calls: tuple[Call, ...] = field(default=(), repr=False)

    @property
    def keys(self) -> tuple[Key, ...]:
        """Return the names of all demands that are known to clash."""
        return tuple(key for clash in self.clashes for key in clash.keys)


class Argument:
    """A season with all its demands, ready to be argued about.

    Parameters
    ----------
    decided
        Weeks that are over: only what is asked of those to come is argued about.
    give_way
        Leave aside what binds those weeks to the weeks to come.
    """

    def __init__(
        self,
        season: Season,
        rules: Sequence[Rule],
        clock: Clock | None = None,
        seed: int = 0,
        decided: Decided | None = None,
        *,
        give_way: bool = False,
    ) -> None:
        self.season, self.rules, self.seed, self.decided = season, rules, seed, decided
        self.clock = clock or Clock(CAP)
        self.board, self.helpers = soft_board(season, rules, decided, give_way=give_way)
        self.model: Model = self.board.model
        self.demands: dict[Key, Demand] = demands_of(self.model, rules)
        self.oracle = Oracle(self.model, self.clock, seed)
        self.clock.restart()

    def breaches(self, plan: Plan, rules: Sequence[Rule]) -> list[Breach]:
        """Return what a plan breaks of rules that must hold, but for what history forces."""
        weeks = 0 if self.decided is None else self.decided.weeks
        found = must_breaches(self.season, rules, plan, weeks)
        history = weeks > 0
        return [
            breach
            for breach in found
            if not history or breach.rule == STRUCTURE or breach_key(breach) in self.demands
        ]

    def simplest(self, core: Sequence[Key]) -> Clash:
        """Return a smallest clash within ``core``, or a simpler one near by."""
        found = self.smallest(core)
        wishes = {key for key in found.keys if self.demands[key].wish}
        if not wishes or len(found.keys) <= len(wishes) + 1:
            return found
        # what is wished for may clash with something else in a simpler way
        aside = set(found.keys) - wishes
        other = self.oracle.core([key for key in self.oracle.keys if key not in aside])
        if other.verdict != "clash":
            return found
        return min(found, self.smallest(other.core), key=lambda clash: clash.rank)

    def smallest(self, core: Sequence[Key]) -> Clash:
        """Return a clash within ``core`` in which every demand is needed, if time allows."""
        small = reduced(self.model, core, self.helpers)
        oracle = Oracle(small, self.clock, self.seed)

        def ask(kept: Sequence[Key]) -> tuple[Verdict, Sequence[Key]]:
            answer = oracle.core(kept, make=tight_solver)
            return answer.verdict, answer.core

        # the whole relaxation sees what is to blame far better than the search that was first
        less = oracle.core(core, make=tight_solver).core or core
        ways = [shrink(less, ask, order=order) for order in self._orders()]
        made = [Clash(self._sorted(way.members), way.minimal) for way in ways]
        return min(made, key=lambda clash: clash.rank)

    def _orders(self) -> tuple[Callable[[Key], int], ...]:
        """Acquit safety rules first, so that the blame stays with wishes; or the later rules."""
        place = {key: at for at, key in enumerate(self.demands)}
        return (
            lambda key: 0 if self.demands[key].safety else 1,
            lambda key: -place[key],
        )

    def checked(self, clash: Clash) -> Clash:
        """Return the clash as it may be told: confirmed, and with what each alone must give."""
        least = reduced(self.model, clash.keys, self.helpers)
        few = clash.minimal and len(clash.keys) <= FEW
        given = [alone(least, clash.keys, key, self.clock) for key in clash.keys] if few else []
        confirmed = self._confirmed(least, clash.keys)
        return replace(clash, confirmed=confirmed, alone=tuple(given) or clash.alone)

    def _confirmed(self, least: Model, members: Sequence[Key]) -> bool:
        """Ask again without assumptions, then with presolve on and another seed."""
        clock = Clock(max(1.0, self.clock.left), self.clock.calls)
        ways = (("kept", tight_solver), ("confirm", second_solver))
        return all(
            ask_outright(least, members, clock, make, what=what, seed=self.seed).verdict == "clash"
            for what, make in ways
        )

    def _sorted(self, members: Sequence[Key]) -> tuple[Demand, ...]:
        chosen = [self.demands[key] for key in in_order(members, list(self.demands))]
        last = len(self.season.weeks)
        return tuple(sorted(chosen, key=lambda d: last if d.key.week is None else d.key.week))


def find_clash(
    season: Season,
    rules: Sequence[Rule],
    *,
    seconds: float = CAP,
    seed: int = 0,
    further: int = 1,
    decided: Decided | None = None,
) -> Finding:
    """Find out why no plan keeps the rules, or that one does.

    Parameters
    ----------
    seconds
        Wall-clock limit of the search.
    further
        How many clashes beyond the first are looked for.
    decided
        Weeks that are over.
    """
    return argue(Argument(season, rules, Clock(seconds), seed, decided), further=further)


def argue(argument: Argument, *, further: int = 1, shown: int = 1) -> Finding:
    """Find the clashes of a season that is laid out already.

    Parameters
    ----------
    shown
        How many of them are told, and so confirmed first.
    """
    clock = argument.clock
    answer = argument.oracle.core(argument.oracle.keys)
    if answer.verdict != "clash":
        plan = argument.board.read(answer.values) if answer.values else None
        return Finding(answer.verdict, plan=plan, calls=tuple(clock.calls))
    clashes: list[Clash] = []
    while answer.verdict == "clash" and len(clashes) <= further:
        look = argument.smallest if clashes else argument.simplest
        clashes.append(look(answer.core))
        used = {key for clash in clashes for key in clash.keys}
        answer = argument.oracle.core([key for key in argument.oracle.keys if key not in used])
    clashes.sort(key=lambda clash: clash.rank)
    told = [argument.checked(clash) for clash in clashes[:shown]]
    more = answer.verdict != "possible"
    return Finding("clash", (*told, *clashes[shown:]), more, calls=tuple(clock.calls))
