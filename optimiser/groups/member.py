"""A group as the joint search sees it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from optimiser.change.decided import Decided
from optimiser.domain.group import Group, GroupSettings
from optimiser.domain.season import Season
from optimiser.groups.group_rules import rules_after
from optimiser.groups.group_season import group_season, weeks_absent
from optimiser.rule import Rule


@dataclass(frozen=True)
class Member:
    """One group with its own season and rules.

    Parameters
    ----------
    weight
        How much its readiness counts beside the other groups'.
    absent
        Weeks before it joins.
    decided
        In a season in progress: what the group did, and its plan from there on so far. As many
        weeks for all groups.
    """

    name: str
    season: Season
    rules: tuple[Rule, ...]
    weight: int = 1
    absent: int = 0
    decided: Decided | None = None

    @property
    def over(self) -> int:
        """Return how many weeks are decided."""
        return self.decided.weeks if self.decided else 0


def members_of(
    season: Season, rules: Sequence[Rule], groups: Mapping[Group, GroupSettings]
) -> list[Member]:
    """Return a member for every group; the first is there all season, and blocks are fitted to it.

    Raises
    ------
    ValueError
        If no group is there from the first week on.
    """
    found = [member_of(season, rules, name, groups[name]) for name in Group if name in groups]
    there = [member for member in found if not member.absent]
    if not there:
        raise ValueError("groups must have one that trains from week 1 (got none); add starters")
    return [there[0], *(member for member in found if member is not there[0])]


def member_of(season: Season, rules: Sequence[Rule], name: str, group: GroupSettings) -> Member:
    """Return one group of a season."""
    own, absent = group_season(season, group), weeks_absent(season, group)
    kept = rules_after(rules, own, absent)
    return Member(str(name), own, tuple(kept), group.weight, absent)


def bands_apart(lead: Member, other: Member) -> set[int]:
    """Return the qualities (indices) whose bands were not the same in the weeks that are over."""
    if lead.decided is None or other.decided is None:
        return set()
    rows = zip(lead.decided.past.rungs, other.decided.past.rungs, strict=True)
    weeks = range(other.absent, other.over)
    return {at for at, (one, two) in enumerate(rows) if any(one[w] != two[w] for w in weeks)}
