"""Plans for several groups at once: blocks, bands and sessions are shared, doses are not.

A group that comes back climbs to the shared bands on its own.
"""

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from optimiser.audit import keeps
from optimiser.board.board import Board
from optimiser.domain.plan import Plan
from optimiser.engine.cp_sat_search import Found, minimise
from optimiser.engine.presolve import presolved
from optimiser.groups.joint import Joint, join
from optimiser.groups.member import Member
from optimiser.groups.rooms import post_shared_rooms
from optimiser.solve import make_board
from optimiser.together.cost import season_cost
from optimiser.together.drive import Watch, drive_model, session_counts, teller, weekly
from optimiser.together.price import price_season
from optimiser.together.settings import Settings
from optimiser.together.start import first_values, price_bands
from optimiser.together.verdict import Verdict, judged_together

#: Deterministic limit of the question whether one group's rules clash by themselves.
ALONE = 5.0


@dataclass(frozen=True)
class GroupsOutcome:
    """A plan for every group with one verdict on all, or why there is none.

    Parameters
    ----------
    plans
        One a member, in order; empty if there is none.
    verdict
        On the season costs of all groups, each by its weight.
    clashing
        If rules clash: the members whose own rules already do, each on its own.
    """

    status: Literal["planned", "clash", "out_of_time"]
    plans: tuple[Plan, ...]
    verdict: Verdict | None
    seconds: float
    stopped: bool = False
    clashing: tuple[str, ...] = ()


def solve_groups(
    members: Sequence[Member], settings: Settings | None = None, *, watch: Watch | None = None
) -> GroupsOutcome:
    """Find the best plans of all groups under shared blocks, bands and sessions.

    A group that comes back restarts as the rules have it for anybody: its bands are its own, on or
    below the shared ones.

    What is made least is the sum of the groups' season costs, each times its group's weight.

    Parameters
    ----------
    watch
        Called with each better solution found.
    """
    settings, began = settings or Settings(), time.perf_counter()
    boards = [make_board(member.season, member.rules) for member in members]
    post_shared_rooms(boards, members)
    first = _first(boards, members, settings)
    if not first.values:
        return _none(boards, members, first, settings, began)
    joint, known = _priced(boards, members, first, settings)
    groups = _weeks(boards, joint)
    counted = joint.places(0, session_counts(boards[0]))
    found = drive_model(joint.model, known, groups, settings, teller(watch, began), counted)
    found = replace(found, seconds=time.perf_counter() - began)
    plans = _read(boards, joint, found.values)
    verdict = _judged(members, plans, found, settings)
    return GroupsOutcome("planned", plans, verdict, found.seconds, found.cut_short)


def _first(boards: Sequence[Board], members: Sequence[Member], settings: Settings) -> Found:
    """Return legal plans for all, with good bands for the first group and those that come back."""
    for board, member in zip(boards, members, strict=True):
        if board is boards[0] or member.absent:
            price_bands(board, settings.rates)
    small = presolved(_joined(boards, members, weigh_costs=False).model)
    found = first_values(small.model, settings)
    return replace(found, values=small.expand(found.values) if found.values else [])


def _joined(
    boards: Sequence[Board], members: Sequence[Member], *, weigh_costs: bool = True
) -> Joint:
    weights, names = [m.weight for m in members], [m.name for m in members]
    climbing = [at for at, member in enumerate(members) if member.absent]
    return join(boards, weights, names, weigh_costs=weigh_costs, climbing=climbing)


def _priced(
    boards: Sequence[Board], members: Sequence[Member], first: Found, settings: Settings
) -> tuple[Joint, dict[int, int]]:
    """Return the joint model with the season costs of all, and what the first plans say in it."""
    plans = _read(boards, _joined(boards, members, weigh_costs=False), first.values)
    for board in boards:
        price_season(board, settings.rates)
    joint = _joined(boards, members)
    known: dict[int, int] = {}
    for board, plan, stands in zip(boards, plans, joint.stands, strict=True):
        for var, value in board.hint(plan).items():
            if len(stands[var]) == 1:
                known.setdefault(next(iter(stands[var])), value)
    return joint, known


def _weeks(boards: Sequence[Board], joint: Joint) -> list[list[int]]:
    """Return the choices of each week of all boards together."""
    found: list[set[int]] = [set() for _ in boards[0].season.weeks]
    for index, board in enumerate(boards):
        for week, group in enumerate(weekly(board)):
            found[week] |= set(joint.places(index, group))
    return [sorted(group) for group in found]


def _read(boards: Sequence[Board], joint: Joint, values: Sequence[int]) -> tuple[Plan, ...]:
    return tuple(board.read(joint.values(index, values)) for index, board in enumerate(boards))


def _none(
    boards: Sequence[Board],
    members: Sequence[Member],
    found: Found,
    settings: Settings,
    began: float,
) -> GroupsOutcome:
    if found.status != "infeasible":
        seconds = time.perf_counter() - began
        return GroupsOutcome("out_of_time", (), None, seconds, stopped=found.cut_short)
    alone = tuple(
        member.name
        for member, board in zip(members, boards, strict=True)
        if minimise(board.model, settings.effort(ALONE)).status == "infeasible"
    )
    return GroupsOutcome("clash", (), None, time.perf_counter() - began, clashing=alone)


def _judged(
    members: Sequence[Member], plans: Sequence[Plan], found: Found, settings: Settings
) -> Verdict:
    together = list(zip(members, plans, strict=True))
    rates = settings.rates
    parts = [(season_cost(m.season, m.rules, plan, rates), m.weight) for m, plan in together]
    kept = all(keeps(m.season, m.rules, plan) for m, plan in together)
    clean = kept and agree(members, plans)
    return judged_together(parts, found, settings.close, clean=clean)


def agree(members: Sequence[Member], plans: Sequence[Plan]) -> bool:
    """Tell whether sessions and bands are the same wherever a group trains.

    The bands of a group that came back may be lower.
    """
    lead = plans[0]
    return all(
        plan.field[week] == lead.field[week]
        and plan.gym[week] == lead.gym[week]
        and _same_bands(plan, lead, week, lower=bool(member.absent))
        for member, plan in zip(members, plans, strict=True)
        for week in range(member.absent, lead.weeks)
    )


def _same_bands(plan: Plan, lead: Plan, week: int, *, lower: bool) -> bool:
    pairs = [(own[week], row[week]) for own, row in zip(plan.rungs, lead.rungs, strict=True)]
    if not lower:
        return all(own == there for own, there in pairs)
    return all(own is not None and there is not None and own <= there for own, there in pairs)
