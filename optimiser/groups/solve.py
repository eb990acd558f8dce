"""Plans for several groups at once: blocks, bands and sessions are shared, doses are not."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from optimiser.domain.plan import Plan
from optimiser.engine.search import Found, minimise
from optimiser.engine.value import value_of
from optimiser.groups.doses import DoseSearch
from optimiser.groups.joint import Joint, join
from optimiser.groups.member import Member
from optimiser.groups.rooms import post_shared_rooms
from optimiser.objective import emphasis_value, price_emphasis, price_readiness
from optimiser.solve import (
    Judge,
    Settings,
    Stage,
    Watch,
    make_board,
    search_bounded,
    teller,
)

Tell = Callable[[float, float, float], None]


@dataclass(frozen=True)
class GroupsOutcome:
    """A plan for every group with one proof for all, or why there is none.

    Parameters
    ----------
    plans
        One a member, in order; empty if there is none.
    clashing
        If rules clash: the members whose own rules already do, each on its own.
    """

    status: Literal["planned", "clash", "out_of_time"]
    plans: tuple[Plan, ...]
    stages: tuple[Stage, ...]
    seconds: float
    stopped: bool = False
    clashing: tuple[str, ...] = ()


def solve_groups(
    members: Sequence[Member], settings: Settings | None = None, *, watch: Watch | None = None
) -> GroupsOutcome:
    """Find the best plans of all groups under shared blocks, bands and sessions.

    Blocks and bands are fitted to the emphasis of the first member, doses to the readiness of
    every one, each group's by its weight.

    Parameters
    ----------
    watch
        Called with each better solution found.
    """
    return _Search(members, settings or Settings(), watch).run()


class _Search:
    def __init__(self, members: Sequence[Member], settings: Settings, watch: Watch | None) -> None:
        self.members, self.settings, self.watch = members, settings, watch
        self.began = time.perf_counter()
        self.boards = [make_board(member.season, member.rules) for member in members]
        post_shared_rooms(self.boards, members)
        self.judges = [Judge(member.season, member.rules, settings) for member in members]

    def run(self) -> GroupsOutcome:
        """Return what both stages reach."""
        price_emphasis(self.boards[0], self.settings.prices)
        joint = self._joint(weigh_costs=False)
        effort = self.settings.effort(self._more(self.settings.emphasis_effort))
        found, relaxed = search_bounded(joint.model, effort, None, self._tell("emphasis"))
        if not found.values:
            return self._none(found, found.cut_short)
        plans = self._read(joint, found.values)
        judged = self._bands(plans)
        first = self.judges[0].stage("emphasis", found, judged, joint.model, relaxed)
        if found.cut_short:
            return self._planned(plans, (first,), stopped=True)
        plans, second, stopped = self._doses(plans)
        return self._planned(plans, (first, second), stopped=stopped)

    def _joint(self, *, weigh_costs: bool = True) -> Joint:
        weights = [member.weight for member in self.members]
        names = [member.name for member in self.members]
        return join(self.boards, weights, names, weigh_costs=weigh_costs)

    def _more(self, effort: float) -> float:
        """Return the effort for a model of so many groups."""
        return effort * len(self.members)

    def _tell(self, stage: str) -> Tell | None:
        return teller(self.watch, stage, self.began)

    def _planned(
        self, plans: tuple[Plan, ...], stages: tuple[Stage, ...], *, stopped: bool
    ) -> GroupsOutcome:
        seconds = time.perf_counter() - self.began
        return GroupsOutcome("planned", plans, stages, seconds, stopped)

    def _none(self, found: Found, early: bool) -> GroupsOutcome:
        if found.status != "infeasible":
            seconds = time.perf_counter() - self.began
            return GroupsOutcome("out_of_time", (), (), seconds, stopped=early)
        alone = tuple(
            member.name
            for member, board in zip(self.members, self.boards, strict=True)
            if minimise(board.model, self.settings.effort(5.0)).status == "infeasible"
        )
        return GroupsOutcome("clash", (), (), time.perf_counter() - self.began, clashing=alone)

    def _read(self, joint: Joint, values: Sequence[int]) -> tuple[Plan, ...]:
        return tuple(
            board.read(joint.values(index, values)) for index, board in enumerate(self.boards)
        )

    # --- doses ----------------------------------------------------------------------------

    def _doses(self, plans: tuple[Plan, ...]) -> tuple[tuple[Plan, ...], Stage, bool]:
        """Choose doses and sessions for the bands of ``plans``."""
        for board, plan in zip(self.boards, plans, strict=True):
            board.pin_blocks(plan)
            price_readiness(board, self.settings.prices, plan)
        joint = self._joint()
        began = time.perf_counter()
        weights = [member.weight for member in self.members]
        search = DoseSearch(self.boards, weights, joint, self.settings, self._tell("doses"))
        made = search.run()
        better = self._read(joint, made.values) if made.values else plans
        found = Found(
            status="optimal" if made.proven else "feasible",
            values=made.values,
            objective=value_of(joint.model, made.values) if made.values else None,
            bound=made.bound,
            seconds=time.perf_counter() - began,
            deterministic=made.deterministic,
        )
        judged = self._readiness(better)
        stage = self.judges[0].stage("doses", found, judged, joint.model)
        return better, stage, made.stopped

    # --- judging --------------------------------------------------------------------------

    def _bands(self, plans: Sequence[Plan]) -> tuple[int, bool]:
        """Return stage 1's objective worked out from the plans, and whether all rules are kept."""
        lead = self.members[0]
        value = emphasis_value(lead.season, self.settings.prices, plans[0])
        together = zip(self.members, self.judges, plans, strict=True)
        return value + sum(m.weight * j.paid(p) for m, j, p in together), self._clean(plans)

    def _readiness(self, plans: Sequence[Plan]) -> tuple[int, bool]:
        """Return stage 2's objective worked out from the plans, and whether all rules are kept."""
        together = zip(self.members, self.judges, plans, strict=True)
        return sum(m.weight * j.readiness(p)[0] for m, j, p in together), self._clean(plans)

    def _clean(self, plans: Sequence[Plan]) -> bool:
        kept = not any(j.broken(p) for j, p in zip(self.judges, plans, strict=True))
        return kept and agree(self.members, plans)


def agree(members: Sequence[Member], plans: Sequence[Plan]) -> bool:
    """Tell whether bands and sessions are the same wherever a group trains."""
    lead = plans[0]
    return all(
        plan.field[week] == lead.field[week]
        and plan.gym[week] == lead.gym[week]
        and [row[week] for row in plan.rungs] == [row[week] for row in lead.rungs]
        for member, plan in zip(members, plans, strict=True)
        for week in range(member.absent, lead.weeks)
    )
