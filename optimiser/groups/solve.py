"""Plans for several groups at once: blocks, bands and sessions are shared, doses are not.

A group that comes back climbs to the shared bands on its own.
"""

import time
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from optimiser.change.decided import Decided
from optimiser.change.freeze import Frozen, freeze, given_way, hold_past
from optimiser.change.near import ANY_PLAN, change_charge, charge_changes
from optimiser.domain.plan import Plan
from optimiser.engine.cp_sat_search import Found, minimise
from optimiser.engine.presolve import presolved
from optimiser.groups.joint import Joint, join
from optimiser.groups.member import Member, bands_apart
from optimiser.groups.rooms import post_shared_rooms
from optimiser.joint_model.cost import season_cost
from optimiser.joint_model.cost_rows import price_season
from optimiser.joint_model.drive import Watch, drive_model, session_counts, teller, weekly
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import make_board
from optimiser.joint_model.start import first_values, price_bands
from optimiser.joint_model.verdict import Verdict, judged_together
from optimiser.review.audit import keeps

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

    What is made least is the sum of the groups' season costs, each times its group's weight. In a
    season in progress what each group did stands, what comes is planned for all of them together,
    and of plans as good those nearest to the ones so far are taken.

    Parameters
    ----------
    watch
        Called with each better solution found.
    """
    settings, began = settings or Settings(), time.perf_counter()
    boards = _boards(members)
    first = _first(boards, members, settings)
    if first.status == "infeasible" and _history_is_why(members, settings):
        boards = _reconciled(_boards(members, give_way=True), members, settings)
        first = _first(boards, members, settings)
    if not first.values:
        return _none(boards, members, first, settings, began)
    joint, known = _priced(boards, members, first, settings)
    groups = _weeks(boards, joint)
    # what is charged for changes already says which sessions are wanted
    counted = [] if members[0].over else joint.places(0, session_counts(boards[0].board))
    found = drive_model(joint.model, known, groups, settings, teller(watch, began), counted)
    found = replace(found, seconds=time.perf_counter() - began)
    plans = _read(boards, joint, found.values)
    verdict = _judged(boards, members, plans, found, settings)
    return GroupsOutcome("planned", plans, verdict, found.seconds, found.cut_short)


def _boards(members: Sequence[Member], *, give_way: bool = False) -> list[Frozen]:
    """Return the boards of all groups, what is over decided."""
    made = []
    for each in members:
        if each.decided is None:
            made.append(Frozen(make_board(each.season, each.rules), 0, ()))
        else:
            past, weeks = each.decided.past, each.decided.weeks
            made.append(freeze(each.season, each.rules, past, weeks, give_way=give_way))
    post_shared_rooms([each.board for each in made], members)
    return made


def _reconciled(
    boards: Sequence[Frozen], members: Sequence[Member], settings: Settings
) -> list[Frozen]:
    """Return boards on which rules give way to history as little as they can, and no further."""
    for each in boards:
        each.board.model.cost.clear()
    joint = _joined(boards, members, weigh_costs=False)
    found = minimise(joint.model, replace(settings.effort(ANY_PLAN), presolve="light"))
    if not found.values:
        return list(boards)
    values = [joint.values(at, found.values) for at in range(len(boards))]
    return [hold_past(each, given_way(each, own)) for each, own in zip(boards, values, strict=True)]


def _history_is_why(members: Sequence[Member], settings: Settings) -> bool:
    """Tell whether there would be plans, had all gone as planned."""
    told = [(each, each.decided.planned) for each in members if each.decided]
    if not told:
        return False
    before = [
        replace(each, season=planned[0], decided=Decided(planned[1], each.over))
        for each, planned in told
        if planned
    ]
    return len(before) < len(members) or bool(_first(_boards(before), before, settings).values)


def _first(boards: Sequence[Frozen], members: Sequence[Member], settings: Settings) -> Found:
    """Return legal plans for all, with good bands for the first group and those that come back."""
    for each, member in zip(boards, members, strict=True):
        if each is boards[0] or member.absent:
            price_bands(each.board, settings.rates)
    small = presolved(_joined(boards, members, weigh_costs=False).model)
    found = first_values(small.model, settings)
    return replace(found, values=small.expand(found.values) if found.values else [])


def _joined(
    boards: Sequence[Frozen], members: Sequence[Member], *, weigh_costs: bool = True
) -> Joint:
    weights, names = [m.weight for m in members], [m.name for m in members]
    climbing = [at for at, member in enumerate(members) if member.absent]
    return join(
        [each.board for each in boards],
        weights,
        names,
        weigh_costs=weigh_costs,
        climbing=climbing,
        over=members[0].over,
        apart=[bands_apart(members[0], member) for member in members],
    )


def _priced(
    boards: Sequence[Frozen], members: Sequence[Member], first: Found, settings: Settings
) -> tuple[Joint, dict[int, int]]:
    """Return the joint model with the season costs of all, and what the first plans say in it."""
    plans = _read(boards, _joined(boards, members, weigh_costs=False), first.values)
    for each, member in zip(boards, members, strict=True):
        price_season(each.board, settings.rates)
        if member.decided is not None:
            charge_changes(each.board, member.decided.past, member.over)
    joint = _joined(boards, members)
    known: dict[int, int] = {}
    for each, plan, stands in zip(boards, plans, joint.stands, strict=True):
        for var, value in each.board.hint(plan).items():
            if len(stands[var]) == 1:
                known.setdefault(next(iter(stands[var])), value)
    return joint, known


def _weeks(boards: Sequence[Frozen], joint: Joint) -> list[list[int]]:
    """Return the choices of each week of all boards together."""
    found: list[set[int]] = [set() for _ in boards[0].board.season.weeks]
    for index, each in enumerate(boards):
        for week, group in enumerate(weekly(each.board)):
            found[week] |= set(joint.places(index, group))
    return [sorted(group) for group in found]


def _read(boards: Sequence[Frozen], joint: Joint, values: Sequence[int]) -> tuple[Plan, ...]:
    return tuple(each.board.read(joint.values(at, values)) for at, each in enumerate(boards))


def _none(
    boards: Sequence[Frozen],
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
        for member, each in zip(members, boards, strict=True)
        if minimise(each.board.model, settings.effort(ALONE)).status == "infeasible"
    )
    return GroupsOutcome("clash", (), None, time.perf_counter() - began, clashing=alone)


def _judged(
    boards: Sequence[Frozen],
    members: Sequence[Member],
    plans: Sequence[Plan],
    found: Found,
    settings: Settings,
) -> Verdict:
    together = list(zip(members, plans, boards, strict=True))
    rates = settings.rates
    parts = [(season_cost(m.season, m.rules, plan, rates), m.weight) for m, plan, _ in together]
    kept = all(
        keeps(m.season, m.rules, plan, board.excused(), m.over) for m, plan, board in together
    )
    charged = sum(
        member.weight * change_charge(board.board, member.decided.past, plan, member.over)
        for member, plan, board in together
        if member.decided is not None
    )
    clean = kept and agree(members, plans)
    return judged_together(parts, found, settings.close, clean=clean, changes=charged)


def agree(members: Sequence[Member], plans: Sequence[Plan]) -> bool:
    """Tell whether sessions and bands are the same wherever groups train together.

    The bands of a group that came back may be lower, and those of a block under way whose bands
    were another group's own stay so to its end.
    """
    lead, over = plans[0], members[0].over
    ahead = next((start for start in lead.starts if start >= over), lead.weeks)
    return all(
        plan.field[week] == lead.field[week]
        and plan.gym[week] == lead.gym[week]
        and _same_bands(plan, lead, week, apart if week < ahead else (), lower=bool(member.absent))
        for member, plan in zip(members, plans, strict=True)
        for apart in [bands_apart(members[0], member)]
        for week in range(max(member.absent, over), lead.weeks)
    )


def _same_bands(plan: Plan, lead: Plan, week: int, apart: Collection[int], *, lower: bool) -> bool:
    rows = enumerate(zip(plan.rungs, lead.rungs, strict=True))
    pairs = [(own[week], row[week]) for index, (own, row) in rows if index not in apart]
    if not lower:
        return all(own == there for own, there in pairs)
    return all(own is not None and there is not None and own <= there for own, there in pairs)
