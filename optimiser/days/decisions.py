"""What is decided about a week: the day of each session, its work, its start."""

from collections.abc import Iterator, Sequence

from ortools.sat.python import cp_model

from optimiser.days.day import Day
from optimiser.days.linear import Linear, total
from optimiser.days.pieces import Piece
from optimiser.days.placing import Put, Task, days_for
from optimiser.domain.quality import Dose, Place

PLACES: tuple[Place, ...] = ("field", "gym")
Slot = tuple[Place, int]
Mark = str
#: What a session can be marked as, by what its pieces are.
MARKS: dict[Mark, str] = {
    "hard": "hard",
    "speed": "speed",
    "jumps": "jumps",
    "lifting": "lifting",
    "above": "above_touch",
}


class Share:
    """Where one piece is done: whole on one day, or its two halves on two days in turn."""

    def __init__(self, model: cp_model.CpModel, piece: Piece, days: Sequence[int]) -> None:
        self.piece = piece
        self.whole = {day: model.new_bool_var("") for day in days}
        halved = piece.dose > Dose.TOUCH and len(days) > 1
        self.first = {day: model.new_bool_var("") for day in days} if halved else {}
        self.second = {day: model.new_bool_var("") for day in days} if halved else {}
        self.parted = total(self.first.values())
        model.add(total(self.whole.values()) + self.parted == 1)
        if halved:
            model.add(total(self.second.values()) == self.parted)
            for at in range(len(days)):
                before = total(self.first[day] for day in days[:at])
                model.add(total(self.second[day] for day in days[: at + 1]) <= before)

    def on(self, day: int) -> list[tuple[cp_model.IntVar, int, int]]:
        """Return for each way to work on a day: its variable, minutes and AU."""
        ways = ((self.whole, 0, 1), (self.first, 0, 2), (self.second, 1, 2))
        return [
            (variables[day], self.piece.minutes(part, parts), self.piece.load(part, parts))
            for variables, part, parts in ways
            if day in variables
        ]


class Decisions:
    """The variables of one week of one squad.

    Parameters
    ----------
    held
        Days and shares of work that are settled already, so that only starts are free.
    """

    def __init__(
        self, model: cp_model.CpModel, task: Task, held: dict[Place, Put] | None = None
    ) -> None:
        self.model, self.task = model, task
        self.held: dict[Slot, cp_model.IntVar] = {}
        self.shares: dict[Place, list[Share]] = {}
        self.minutes: dict[Slot, cp_model.IntVar] = {}
        self.load: dict[Slot, Linear] = {}
        self.filled: dict[Slot, Linear] = {}
        self.practice = {day.index: model.new_bool_var("") for day in task.days}
        self._marks: dict[tuple[Mark, Slot], cp_model.IntVar] = {}
        for place in PLACES:
            self._place(place, None if held is None else held[place])
        self._practise()

    def _place(self, place: Place, put: Put | None) -> None:
        model, count = self.model, self.task.counts[place]
        days = list(put.days) if put else self._days(place)
        held = {(place, day): model.new_bool_var("") for day in days}
        model.add(total(held.values()) == count)
        self.held |= held
        pieces = self.task.pieces[place] if days else ()
        self.shares[place] = [Share(model, piece, days) for piece in pieces]
        for day in days:
            self._work(place, day)
        if put:
            self._keep(place, put)
        else:
            self._stand(place)

    def _days(self, place: Place) -> list[int]:
        """Return the days a place may have sessions on: those it had, and others not over yet."""
        count, done = self.task.counts[place], self.task.done
        stood = done.sessions(self.task.pieces[place])
        usual = days_for(self.task, count) if count else []
        ahead = {*stood, *(day for day in usual if day >= done.until)}
        return sorted(ahead if len(ahead) >= count else {*stood, *usual})

    def _work(self, place: Place, day: int) -> None:
        ways = [way for share in self.shares[place] for way in share.on(day)]
        slot = (place, day)
        most = sum(share.piece.minutes(0, 1) for share in self.shares[place])
        self.minutes[slot] = self.model.new_int_var(0, most, "")
        self.model.add(self.minutes[slot] == total(minutes * on for on, minutes, _ in ways))
        self.load[slot] = total(load * on for on, _, load in ways)
        self.filled[slot] = total(on for on, _, _ in ways)
        for on, _, _ in ways:
            self.model.add_implication(on, self.held[slot])

    def _keep(self, place: Place, put: Put) -> None:
        for share, way in zip(self.shares[place], put.spread.ways, strict=True):
            at = [put.days[number] for number in way]
            if len(at) == 1:
                self.model.add(share.whole[at[0]] == 1)
            else:
                self.model.add(share.first[at[0]] == 1)
                self.model.add(share.second[at[1]] == 1)

    def _stand(self, place: Place) -> None:
        """Hold what has been done to its days."""
        for share in self.shares[place]:
            stood = self.task.done.of(share.piece)
            if stood is not None:
                parts = (share.whole,) if stood.parts == 1 else (share.first, share.second)
                for variables, day in zip(parts, stood.days, strict=False):
                    self.model.add(variables[day] == 1)

    def _practise(self) -> None:
        practices = self.task.practised
        self.model.add(total(self.practice.values()) == practices.count)
        for day, on in self.practice.items():
            if day in practices.fixed:
                self.model.add(on == 1)
            elif day not in practices.order:
                self.model.add(on == 0)

    def slots(self, place: Place) -> Iterator[Slot]:
        """Yield what of a place may hold a session, by day."""
        return (slot for slot in self.held if slot[0] == place)

    def day(self, slot: Slot) -> Day:
        """Return the day of a slot."""
        return self.task.days[slot[1]]

    def on_day(self, day: int) -> list[Slot]:
        """Return the slots of a day."""
        return [slot for slot in self.held if slot[1] == day]

    def mark(self, mark: Mark, slot: Slot) -> cp_model.IntVar:
        """Return a variable that is 1 if the session of a slot has a mark."""
        known = self._marks.get((mark, slot))
        if known is None:
            known = self._marks[mark, slot] = self.model.new_bool_var("")
            shares = [share for share in self.shares[slot[0]] if _has(share.piece, mark)]
            ways = [on for share in shares for on, _, _ in share.on(slot[1])]
            if ways:
                self.model.add_max_equality(known, ways)
            else:
                self.model.add(known == 0)
        return known

    def can(self, mark: Mark, slot: Slot) -> bool:
        """Tell whether the session of a slot could have a mark at all."""
        return any(_has(share.piece, mark) for share in self.shares[slot[0]])

    def day_mark(self, mark: Mark) -> dict[int, cp_model.IntVar]:
        """Return by day a variable that is 1 if any of its sessions has a mark."""
        found: dict[int, cp_model.IntVar] = {}
        for slot in self.held:
            if self.can(mark, slot):
                one = found.setdefault(slot[1], self.model.new_bool_var(""))
                self.model.add_implication(self.mark(mark, slot), one)
        return dict(sorted(found.items()))


def _has(piece: Piece, mark: Mark) -> bool:
    return piece.dose > Dose.TOUCH if mark == "above" else bool(getattr(piece, MARKS[mark]))
