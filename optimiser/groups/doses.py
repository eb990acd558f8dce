"""Doses for several groups under shared sessions: each group first, then all of them together.

Sessions are all that ties the groups once bands are chosen. So what each group reaches with
sessions of its own is a bound of what they reach together, and doses for the sessions that suit the
first group are where the joint search starts.
"""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from optimiser.board.board import Board
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Place
from optimiser.engine.branch import Limits, branch
from optimiser.engine.compact import Compact, compact
from optimiser.engine.parts import search_by_parts
from optimiser.engine.search import Effort, Found, minimise
from optimiser.engine.value import value_of
from optimiser.engine.windows import WIDTHS, improve
from optimiser.groups.joint import Joint
from optimiser.solve import Settings, weekly, whole_bound

Tell = Callable[[float, float, float], None]
PLACES: tuple[Place, ...] = ("field", "gym")
#: Shares of the first group's effort that each further group gets for its bound, and for its doses.
BOUND, FURTHER = 0.2, 0.3
#: Share of the first group's effort for the joint search, which starts close to its bound.
TOGETHER = 0.3
#: Gap at which the search ends.
CLOSE = 0.0005
#: Deterministic limit of filling in what the known variables leave open.
FILL = 1.0


@dataclass
class Doses:
    """What a dose search found for all groups.

    Parameters
    ----------
    values
        One value a variable of the joint model; empty if nothing was found.
    bound
        Lower bound of the joint cost.
    """

    values: list[int] = field(default_factory=list)
    bound: int = 0
    proven: bool = False
    deterministic: float = 0.0
    stopped: bool = False


class DoseSearch:
    """Chooses doses and sessions; bands are pinned and costs set on every board.

    Parameters
    ----------
    weights
        How much each board's cost counts in the joint model.
    """

    def __init__(
        self,
        boards: Sequence[Board],
        weights: Sequence[int],
        joint: Joint,
        settings: Settings,
        tell: Tell | None = None,
    ) -> None:
        self.boards, self.weights, self.joint = boards, weights, joint
        self.settings, self.tell = settings, tell
        self.small = compact(joint.model)
        self.ends = time.perf_counter() + settings.seconds * len(boards)
        self.out = Doses()

    def run(self) -> Doses:
        """Return the best found in the time allowed."""
        alone = [self._alone(index) for index in range(len(self.boards))]
        if self.out.stopped:
            return self.out
        self.out.bound = sum(
            weight * bound for weight, (_, bound) in zip(self.weights, alone, strict=True)
        )
        start = self._start([values for values, _ in alone])
        if start and not self._close(start):
            start = self._windows(start)
        if not start or not self._close(start):
            start = self._together(start)
        self.out.values = self.small.expand(start) if start else []
        return self.out

    def _effort(self, deterministic: float) -> Effort:
        """Return the effort of one search, within the time left for all of them."""
        left = max(1.0, self.ends - time.perf_counter())
        effort = self.settings.effort(deterministic)
        return replace(effort, seconds=min(effort.seconds, left))

    def _limits(self, share: float) -> Limits:
        """Return the limits of one branch and bound, within the time left for all of them."""
        limits = self.settings.limits(share)
        left = max(1.0, self.ends - time.perf_counter())
        return replace(limits, seconds=min(limits.seconds, left))

    def _close(self, values: list[int]) -> bool:
        """Tell whether a solution is so close to the bound that no more search is worth it."""
        self._report(values)
        cost = value_of(self.small.model, values)
        self.out.proven = cost <= self.out.bound
        return cost - self.out.bound <= CLOSE * cost

    def _report(self, values: list[int]) -> None:
        if self.tell is not None:
            self.tell(0.0, value_of(self.small.model, values), self.out.bound)

    # --- each on its own ------------------------------------------------------------------

    def _alone(self, index: int) -> tuple[list[int], int]:
        """Return one board's best values with sessions of its own, and the bound of its cost."""
        if self.out.stopped:
            return [], 0
        board, share = self.boards[index], BOUND if index else 1.0
        small = compact(board.model)
        found = self._searched(board, small, share)
        bound = int(whole_bound(found.bound))
        return (small.expand(found.values) if found.values else []), bound

    def _searched(self, board: Board, small: Compact, share: float) -> Found:
        """Search one board's doses with a share of the first group's effort."""
        polish = share * self.settings.polish_effort
        parts = weekly(board, small, replace(self.settings, polish_effort=polish))
        found = search_by_parts(small.model, parts, self._limits(share))
        self.out.stopped = self.out.stopped or found.cut_short
        self.out.deterministic += found.deterministic
        return found

    # --- a first solution for all ---------------------------------------------------------

    def _start(self, alone: Sequence[list[int]]) -> list[int]:
        """Return a solution of the joint model with the first board's own sessions, or nothing."""
        if not alone[0]:
            return []
        plan = self.boards[0].read(alone[0])
        known: dict[int, int] = {}
        for index, values in enumerate(alone):
            held = values if index == 0 else self._under(index, plan)
            if not held:
                return []
            for var, terms in enumerate(self.joint.stands[index]):
                if len(terms) == 1:
                    known.setdefault(next(iter(terms)), held[var])
        return self._filled(known)

    def _under(self, index: int, lead: Plan) -> list[int]:
        """Return one board's best values with the sessions of ``lead``.

        Its doses with sessions of its own are no hint: they mislead the search.
        """
        board = self.boards[index]
        lower, upper = list(board.model.lower), list(board.model.upper)
        for week in board.open_weeks():
            for place in PLACES:
                (var,) = board.sessions(place, week)
                lower[var] = upper[var] = (lead.field if place == "field" else lead.gym)[week]
        small = compact(replace(board.model, lower=lower, upper=upper))
        found = self._searched(board, small, FURTHER)
        return small.expand(found.values) if found.values else []

    def _filled(self, known: dict[int, int]) -> list[int]:
        """Return values of the compact joint model that agree with the known ones."""
        model = self.small.model
        lower, upper = list(model.lower), list(model.upper)
        for var, value in self.small.shrink(known).items():
            lower[var] = upper[var] = value
        rest = compact(replace(model, lower=lower, upper=upper))
        found = minimise(rest.model, self._effort(FILL))
        return rest.expand(found.values) if found.status in ("optimal", "feasible") else []

    # --- all together ---------------------------------------------------------------------

    def _windows(self, values: list[int]) -> list[int]:
        """Improve a few weeks of all groups at a time."""
        place = {old: new for new, old in enumerate(self.small.kept)}
        weeks: list[list[int]] = [[] for _ in self.boards[0].season.weeks]
        for index, board in enumerate(self.boards):
            for week, held in enumerate(weeks):
                joint = self.joint.places(index, board.week_choices(week))
                held += [place[var] for var in joint if var in place]
        effort = self._effort(self.settings.polish_effort)
        widths = [max(2, width // len(self.boards)) for width in WIDTHS]
        better, used = improve(self.small.model, values, weeks, effort, widths=widths)
        self.out.deterministic += used
        return better

    def _together(self, values: list[int]) -> list[int]:
        """Search the joint model from a solution, if there is one."""
        share = TOGETHER if values else 1.0
        hint = dict(enumerate(values)) or None
        found = branch(self.small.model, self._limits(share), hint=hint, watch=self.tell)
        self.out.stopped = found.cut_short
        self.out.deterministic += found.deterministic
        self.out.proven = found.status == "optimal"
        if found.values:
            self.out.bound = max(self.out.bound, int(whole_bound(found.bound)))
        better = not values or value_of(self.small.model, found.values or values) < value_of(
            self.small.model, values
        )
        return found.values if found.values and better else values
