"""What a week can hold of all groups together, so that their shared sessions have legal days."""

from collections.abc import Mapping, Sequence
from typing import Protocol, runtime_checkable

from optimiser.board.board import Board
from optimiser.days.room import Room
from optimiser.domain.season import Season
from optimiser.groups.member import Member


@runtime_checkable
class KeepsRooms(Protocol):
    """A rule that bounds weeks by the room their days leave."""

    price: int | None

    def rooms(self, season: Season) -> list[Room]:
        """Return what every week can hold."""

    def post_rooms(self, board: Board, rooms: Mapping[int, Room]) -> None:
        """Hold some open weeks (from 0) to these rooms."""


def post_shared_rooms(boards: Sequence[Board], members: Sequence[Member]) -> None:
    """Hold every group to the room of the season that all of them share.

    Every group's days are those around the matches of the first one. A group that has just joined
    has no match behind it and could do more, but not together with the others. Days far enough
    apart for hard work are so whatever each group does on them, so nothing more has to be asked.
    A rule with a price promises nothing, so nothing is asked for it here.
    """
    for board, member in zip(boards[1:], members[1:], strict=True):
        for rule in member.rules:
            if isinstance(rule, KeepsRooms) and rule.price is None:
                rule.post_rooms(board, _tighter(board, rule, member, members[0]))


def _tighter(board: Board, rule: KeepsRooms, member: Member, lead: Member) -> dict[int, Room]:
    own, shared = rule.rooms(member.season), rule.rooms(lead.season)
    ahead = (week for week in board.open_weeks() if week >= member.over)
    return {week: shared[week] for week in ahead if shared[week] != own[week]}
