"""The changes made so far, step by step, so that each can be undone and done again."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from optimiser.domain.edits import Edit


@dataclass(frozen=True)
class MadeEdit:
    """A change that was made; its number names it for as long as the page is open."""

    number: int
    edit: Edit


State = tuple[MadeEdit, ...]


@dataclass
class Steps:
    """What is changed now, what it was before each step, and what was undone.

    Parameters
    ----------
    now
        The changes that stand, in order.
    """

    now: State = ()
    _before: list[State] = field(default_factory=list)
    _after: list[State] = field(default_factory=list)
    _last: int = 0

    @property
    def edits(self) -> tuple[Edit, ...]:
        """Return the changes that stand."""
        return tuple(made.edit for made in self.now)

    @property
    def can_undo(self) -> bool:
        """Tell whether there is a step to take back."""
        return bool(self._before)

    @property
    def can_redo(self) -> bool:
        """Tell whether there is a step to do again."""
        return bool(self._after)

    def with_more(self, edits: Sequence[Edit]) -> State:
        """Return the changes with more of them."""
        more = tuple(MadeEdit(self._last + at, edit) for at, edit in enumerate(edits, 1))
        return (*self.now, *more)

    def without(self, number: int) -> State | None:
        """Return the changes without one of them; None if it is not there."""
        left = tuple(made for made in self.now if made.number != number)
        return None if len(left) == len(self.now) else left

    def step(self, state: State) -> None:
        """Make a state the one that stands; what was undone is forgotten."""
        self._before.append(self.now)
        self._after.clear()
        self._stand(state)

    def undone(self) -> State:
        """Return the state before the last step."""
        return self._before[-1]

    def undo(self) -> None:
        """Take the last step back."""
        self._after.append(self.now)
        self._stand(self._before.pop())

    def redone(self) -> State:
        """Return the state that was undone last."""
        return self._after[-1]

    def redo(self) -> None:
        """Do again what was undone last."""
        self._before.append(self.now)
        self._stand(self._after.pop())

    def _stand(self, state: State) -> None:
        self.now = state
        self._last = max([self._last, *(made.number for made in state)])
