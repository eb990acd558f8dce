"""The lines of a card: the work of a band, cut to the dose and to the athlete."""

from collections.abc import Iterable, Sequence

from optimiser.athlete.card import Kit, Line, Rising
from optimiser.athlete.choosing import Chooser
from optimiser.athlete.dose_sets import contacts_of, scaled_sets
from optimiser.athlete.exercise import Exercise, Item
from optimiser.athlete.jumps import DROP_LIMIT
from optimiser.athlete.library import Library
from optimiser.athlete.lift_load import known_strength, lift_load, reserve
from optimiser.athlete.minutes import rising_percents
from optimiser.athlete.run_target import curve, run_target, sled_load
from optimiser.athlete.squad import Athlete
from optimiser.domain.quality import Dose

#: Seconds of hard work in place of a run: about as long as 30 m takes (engineering choice).
INSTEAD_OF_A_RUN = (4.0, 6.0)

#: A lift that stands in for another and was never tested is light enough for this many repetitions,
#: done and left; at most five are left, as more are hard to judge (engineering choice).
STAND_IN_TIMES, STAND_IN_RESERVE = 8.0, (3.0, 5.0)

#: From this percentage of the 1RM on somebody whose 1RM no test tells leaves as many repetitions:
#: how near a heavy single is to the limit can't be felt by who never did one (engineering choice).
HEAVY, UNTESTED_RESERVE = 90.0, 3.0

#: Most repetitions in reserve that can be judged.
JUDGED = 5
#: Hackett et al. (2017), Journal of Strength and Conditioning Research 31(8): 2162-2168.
FAR_FROM_FAILURE = "more than 5 in reserve is hard to judge: expect to be out by 2 or more"

#: Repetitions of a rising set by per cent of the 1RM (common practice, no source).
RISING_REPS = {40.0: 5, 60.0: 4, 75.0: 2, 85.0: 1}
#: Repetitions of a set that takes the place of a run, and landings of one (engineering choices).
REPS_FOR_A_RUN, LANDINGS_FOR_A_RUN = (6.0, 8.0), (3.0, 3.0)

#: Repetitions of a set without a load in place of lifts or jumps, and the most rest after what
#: stands in without a load for lifts, runs or jumps, in s (engineering choices).
UNLOADED, UNLOADED_REST = (8.0, 12.0), (60.0, 90.0)

Made = tuple[Line, Sequence[str]]


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
        self.chooser = self.choosing()

    def choosing(self, used: Iterable[str] = (), barred: frozenset[str] = frozenset()) -> Chooser:
        """Return what chooses exercises for the athlete, some of them done already or barred."""
        missing, level = self.kit.missing, self.athlete.level
        return Chooser(self.library, self.banned, missing, level, barred, set(used))

    def choose(
        self, items: Sequence[Item], chooser: Chooser | None = None, *, always: bool = True
    ) -> tuple[list[Item], list[str]]:
        """Return items with exercises that the athlete may do, and remarks on what is left out.

        No exercise comes twice from one chooser; left out, that of the athlete's week. Unless
        ``always``, only what an exercise names takes its place.
        """
        used, kept = chooser or self.chooser, [item.exercise for item in items]
        chosen: list[Item] = []
        left_out: list[str] = []
        for item in items:
            key, why = used.choose(item.exercise, kept, always=always)
            if key is None:
                left_out.append(why)
            else:
                chosen.append(item if key == item.exercise else self.stand_in(item, key, why))
        return chosen, left_out

    def lines(self, items: Sequence[Item], dose: Dose) -> list[Made]:
        """Return a line and its remarks for each item, whose exercises are chosen already."""
        return [self._line(item, dose) for item in items]

    def kilograms(self, item: Item) -> float:
        """Return the heaviest load of an item in kg; 0 where it is not known."""
        exercise = self.library.exercises[item.exercise]
        if not exercise.lifted or not item.reps:
            return 0.0
        found = lift_load(self.athlete, item.exercise, exercise, item, self.kit)
        return found.kg[1] if found.kg else 0.0

    def _line(self, item: Item, dose: Dose) -> Made:
        exercise = self.library.exercises[item.exercise]
        sets = scaled_sets(item.sets, dose)
        line = Line(
            exercise=exercise.name,
            sets=sets,
            each_side=exercise.side == "each",
            rest_s=item.rest,
            contacts=contacts_of(item, exercise, sets),
            note=item.note,
            key=item.exercise,
            planned=item.planned or item.exercise,
            cue=exercise.cue,
        )
        if exercise.timed and item.planned:
            return self._timed(line, item, exercise), []
        if item.metres is None:
            return self._counted(line, item, item.exercise, exercise)
        return self._sled(line, item) if exercise.load == "sled" else self._run(line, item)

    def stand_in(self, item: Item, key: str, why: str) -> Item:
        """Return ``item`` done as another exercise, with ``why`` as its note."""
        exercise, lift = self.library.exercises[key], self.library.exercises[item.exercise]
        told: dict[str, object] = {"exercise": key, "note": why, "planned": item.exercise}
        if item.metres is not None and not exercise.over_distance and not exercise.timed:
            reps = LANDINGS_FOR_A_RUN if exercise.jump else REPS_FOR_A_RUN
            told |= {"metres": None, "lead_in": None, "reps": reps}
        if not (exercise.lifted or exercise.fast or exercise.over_distance) and item.rest:
            told["rest"] = tuple(map(min, item.rest, UNLOADED_REST))
        slow = not (exercise.lifted or exercise.fast or exercise.jump)
        if (lift.lifted or lift.jump) and slow:
            told |= {"percent": None, "reserve": None, "reps": UNLOADED}
            return item.model_copy(update=told)
        return self._gentler(item, key, exercise).model_copy(update=told)

    def _gentler(self, item: Item, key: str, exercise: Exercise) -> Item:
        """Return ``item`` further from failure if the lift standing in was never tested."""
        tested = (exercise.of or key) in self.athlete.lifts
        if tested or exercise.fast or not exercise.lifted or not item.reps:
            return item
        fewest, most = STAND_IN_RESERVE
        wanted = min(most, max(fewest, STAND_IN_TIMES - item.reps[1]))
        least, highest = (
            min(most, max(wanted, value)) for value in reserve(item) or (wanted, wanted)
        )
        return item.model_copy(update={"reserve": (least, highest)})

    def _counted(self, line: Line, item: Item, key: str, exercise: Exercise) -> Made:
        """Return a line of repetitions or seconds."""
        item = self._untested(item, key, exercise)
        found = lift_load(self.athlete, key, exercise, item, self.kit)
        left = None if exercise.fast else reserve(item)
        # so light that the repetitions left tell nothing
        left = None if left and left[0] > JUDGED else left
        told = {
            "rising": self._rising(item, key, exercise),
            "reps": item.reps,
            "seconds": item.seconds,
            "kg": found.kg,
            "percent": item.percent if found.kg else None,
            "reserve": left,
            "how": found.how,
        }
        hard = [FAR_FROM_FAILURE] if left and left[1] > JUDGED else []
        return line.model_copy(update=told), [*hard, *self._drop(key)]

    def _untested(self, item: Item, key: str, exercise: Exercise) -> Item:
        """Return ``item`` further from the limit if it is heavy and by feel."""
        heavy = item.percent is not None and item.percent[1] >= HEAVY
        if not heavy or known_strength(self.athlete, key, exercise):
            return item
        low, high = reserve(item) or (0.0, 0.0)
        kept = (max(low, UNTESTED_RESERVE), max(high, UNTESTED_RESERVE))
        return item.model_copy(update={"reserve": kept})

    def _sled(self, line: Line, item: Item) -> Made:
        sled = sled_load(self.athlete, item, self.kit)
        told = {"metres": item.metres, "kg": sled.kg, "how": sled.how}
        return line.model_copy(update=told), [sled.note] if sled.note else []

    def _run(self, line: Line, item: Item) -> Made:
        effort = f"{item.speed[0]:g}-{item.speed[1]:g} %" if item.speed else ""
        told = {
            "metres": item.metres,
            "lead_in": item.lead_in,
            "target": run_target(item, self.curve, self.athlete.splits),
            "how": f"{effort} of top speed" if effort else "",
        }
        return line.model_copy(update=told), []

    def _timed(self, line: Line, item: Item, exercise: Exercise) -> Line:
        """Return a line of seconds in place of runs or of repetitions."""
        effort = f"{item.speed[0]:g}-{item.speed[1]:g} % effort" if item.speed else "all out"
        hard = effort if exercise.fast and item.metres else ""
        seconds = item.seconds or exercise.hold or INSTEAD_OF_A_RUN
        return line.model_copy(update={"seconds": seconds, "how": hard})

    def _rising(self, item: Item, key: str, exercise: Exercise) -> tuple[Rising, ...]:
        """Return the rising sets before the first heavy one, in kg where the lift was tested."""
        made = []
        for percent in rising_percents(item, exercise, first=True):
            lighter = item.model_copy(update={"percent": (percent, percent)})
            found = lift_load(self.athlete, key, exercise, lighter, self.kit)
            kg = found.kg[1] if found.kg else None
            made.append(Rising(percent=percent, reps=RISING_REPS[percent], kg=kg))
        return tuple(made)

    def _drop(self, key: str) -> Sequence[str]:
        heavy, height = DROP_LIMIT
        if key == "drop_jump" and self.athlete.body_mass_kg > heavy:
            return [f"above {heavy:g} kg: drop from {height:g} m at most"]
        return []
