"""The lines of a card: the work of a band, cut to the dose and to the athlete."""

from collections.abc import Sequence

from optimiser.athlete.card import Kit, Line
from optimiser.athlete.dose_sets import contacts_of, scaled_sets
from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.jumps import DROP_LIMIT
from optimiser.athlete.library import Library
from optimiser.athlete.lift_load import lift_load, reserve
from optimiser.athlete.limits import choose
from optimiser.athlete.run_target import curve, run_target, sled_load
from optimiser.athlete.squad import Athlete
from optimiser.domain.quality import Dose

#: Seconds of hard work in place of a run: about as long as 30 m takes (engineering choice).
INSTEAD_OF_A_RUN = (4.0, 6.0)

#: A lift that stands in for another and was never tested is light enough for this many repetitions,
#: done and left; at most five are left, as more are hard to judge (engineering choice).
STAND_IN_TIMES, STAND_IN_RESERVE = 8.0, (3.0, 5.0)

#: Most repetitions in reserve that can be judged.
JUDGED = 5
#: Hackett et al. (2017), Journal of Strength and Conditioning Research 31(8): 2162-2168.
FAR_FROM_FAILURE = "more than 5 in reserve is hard to judge: expect to be out by 2 or more"

Made = tuple[Line | None, Sequence[str]]


class LineMaker:
    """Makes lines for one athlete.

    Parameters
    ----------
    banned
        Tags of the restrictions that hold.
    """

    def __init__(
        self, athlete: Athlete, banned: frozenset[str], library: Library, kit: Kit
    ) -> None:
        self.athlete, self.banned, self.library, self.kit = athlete, banned, library, kit
        self.curve = curve(athlete)

    def lines(self, items: Sequence[Item], dose: Dose) -> list[Made]:
        """Return a line and its remarks for each item; None if nothing can take its place.

        No exercise stands in for two others.
        """
        taken = {item.exercise for item in items}
        made: list[Made] = []
        for item in items:
            key, why = choose(item, self.library, self.banned, self.kit.missing, taken)
            if key is None:
                made.append((None, [why]))
                continue
            taken.add(key)
            made.append(self._line(item, dose, key, why))
        return made

    def _line(self, item: Item, dose: Dose, key: str, why: str) -> Made:
        exercise = self.library.exercises[key]
        sets = scaled_sets(item.sets, dose)
        if key != item.exercise:
            item = self._gentler(item, key, exercise).model_copy(update={"note": ""})
        line = Line(
            exercise=exercise.name,
            sets=sets,
            each_side=exercise.side == "each",
            rest_s=item.rest,
            contacts=contacts_of(item, exercise, sets),
            note=why or item.note,
        )
        if item.metres is None:
            return self._counted(line, item, key, exercise)
        return (
            self._sled(line, item) if exercise.load == "sled" else self._run(line, item, exercise)
        )

    def _gentler(self, item: Item, key: str, exercise: Exercise) -> Item:
        """Return ``item`` further from failure if the lift standing in was never tested."""
        tested = (exercise.of or key) in self.athlete.lifts
        if tested or exercise.fast or not item.reps:
            return item
        fewest, most = STAND_IN_RESERVE
        wanted = min(most, max(fewest, STAND_IN_TIMES - item.reps[1]))
        least, highest = (
            min(most, max(wanted, value)) for value in reserve(item) or (wanted, wanted)
        )
        return item.model_copy(update={"reserve": (least, highest)})

    def _counted(self, line: Line, item: Item, key: str, exercise: Exercise) -> Made:
        """Return a line of repetitions or seconds."""
        found = lift_load(self.athlete, key, exercise, item, self.kit)
        left = None if exercise.fast else reserve(item)
        # so light that the repetitions left tell nothing
        left = None if left and left[0] > JUDGED else left
        told = {
            "reps": item.reps,
            "seconds": item.seconds,
            "kg": found.kg,
            "percent": item.percent if found.kg else None,
            "reserve": left,
            "how": found.how,
        }
        hard = [FAR_FROM_FAILURE] if left and left[1] > JUDGED else []
        return line.model_copy(update=told), [*hard, *self._drop(key)]

    def _sled(self, line: Line, item: Item) -> Made:
        sled = sled_load(self.athlete, item, self.kit)
        told = {"metres": item.metres, "kg": sled.kg, "how": sled.how}
        return line.model_copy(update=told), [sled.note] if sled.note else []

    def _run(self, line: Line, item: Item, exercise: Exercise) -> Made:
        effort = f"{item.speed[0]:g}-{item.speed[1]:g} %" if item.speed else ""
        if exercise.timed:
            how = f"{effort} effort" if effort else "all out"
            return line.model_copy(update={"seconds": INSTEAD_OF_A_RUN, "how": how}), []
        told = {
            "metres": item.metres,
            "lead_in": item.lead_in,
            "target": run_target(item, self.curve, self.athlete.splits),
            "how": f"{effort} of top speed" if effort else "",
        }
        return line.model_copy(update=told), []

    def _drop(self, key: str) -> Sequence[str]:
        heavy, height = DROP_LIMIT
        if key == "drop_jump" and self.athlete.body_mass_kg > heavy:
            return [f"above {heavy:g} kg: drop from {height:g} m at most"]
        return []
