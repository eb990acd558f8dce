"""From a set that clashes to one in which every member is needed."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from optimiser.explain.oracle import Verdict

Item = TypeVar("Item")


@dataclass(frozen=True)
class Shrunk(Generic[Item]):
    """What is left.

    Parameters
    ----------
    minimal
        True if for every member it was shown that the others can be kept without it.
    """

    members: tuple[Item, ...]
    minimal: bool


def shrink(
    start: Sequence[Item],
    ask: Callable[[Sequence[Item]], tuple[Verdict, Sequence[Item]]],
    *,
    order: Callable[[Item], int] = lambda _: 0,
) -> Shrunk[Item]:
    """Take members out one by one for as long as the rest still clashes.

    Every clash found on the way replaces the set by its core, which spares most of the questions.

    Parameters
    ----------
    ask
        Whether some members can be kept together; if not, some that cannot. ``unknown`` ends the
        search for a smaller set.
    order
        Members with the lowest number are taken out first, so those with the highest are blamed.

    References
    ----------
    Bakker, Dikker, Tempelman and Wognum (1993), IJCAI-93: 276-281 (deletion); clause-set
    refinement: Belov, Lynce and Marques-Silva (2012), AI Communications 25(2): 97-116. Both from
    memory.
    """
    members = list(start)
    needed: list[Item] = []
    for item in sorted(start, key=order):
        if item not in members:
            continue
        rest = [other for other in members if other != item]
        verdict, core = ask(rest)
        if verdict == "unknown":
            return Shrunk(tuple(members), minimal=False)
        if verdict == "possible":
            needed.append(item)
        else:
            held = set(core)
            members = [other for other in rest if other in held or other in needed]
    return Shrunk(tuple(members), minimal=True)


def in_order(members: Iterable[Item], whole: Sequence[Item]) -> tuple[Item, ...]:
    """Return ``members`` in the order in which they stand in ``whole``."""
    held = set(members)
    return tuple(item for item in whole if item in held)
