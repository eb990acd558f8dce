"""Which exercise is done: by restrictions, equipment, level and what the week has already."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from typing import get_args

from optimiser.athlete.exercise import Exercise, TrainingLevel
from optimiser.athlete.library import Library

LEVELS: tuple[TrainingLevel, ...] = get_args(TrainingLevel)

#: What is left where nothing named takes an exercise's place: no equipment, and the last of them
#: loads nothing that a restriction names (engineering choice).
ALWAYS = (
    "dead_bug",
    "one_leg_bridge",
    "lying_extension",
    "side_leg_raise",
    "glute_bridge",
    "heel_dig",
    "quick_punch",
    "arm_drive",
    "calf_raise",
    "bent_calf_raise",
    "upper_back_turn",
    "long_bridge",
    "side_plank",
    "one_leg_hinge",
    "adduction_side",
    "lying_turn",
    "brace",
)


@dataclass
class Chooser:
    """Chooses the exercises of one athlete's week, each of them once.

    Parameters
    ----------
    banned
        Tags of the restrictions that hold.
    missing
        Equipment that is not there.
    barred
        Keys of what the way back does not allow yet.
    used
        Keys of what is chosen already; it grows.
    """

    library: Library
    banned: Collection[str]
    missing: Collection[str]
    level: TrainingLevel = "advanced"
    barred: Collection[str] = ()
    used: set[str] = field(default_factory=set)

    def choose(
        self, wanted: str, kept: Collection[str] = (), *, always: bool = True
    ) -> tuple[str | None, str]:
        """Return the key of the exercise to do for ``wanted``, and why it is another.

        Parameters
        ----------
        kept
            Keys that other work of the same band wants.
        always
            True if what is always possible may take its place too.

        Returns
        -------
        tuple
            None and the reason where all that is possible is chosen already.
        """
        taken = self.used | (set(kept) - {wanted})
        why = self._against(wanted)
        candidates = [*self._again(wanted)] if not why else [*self._in_place(wanted)]
        candidates += [key for key in ALWAYS if always and key in self.library.exercises]
        for key in candidates:
            if key not in taken and not self._against(key):
                self.used.add(key)
                return key, self._words(wanted, key, why)
        name = self.library.exercises[wanted].name
        return None, f"{name}: left out ({why or 'done already'}), nothing in its place"

    def _words(self, wanted: str, key: str, why: str) -> str:
        name = self.library.exercises[wanted].name
        if key == wanted:
            return ""
        return f"in place of {name} ({why})" if why else ""

    def _again(self, wanted: str) -> Iterator[str]:
        yield wanted
        yield from self.library.exercises[wanted].also
        yield from self._in_place(wanted)

    def _in_place(self, wanted: str) -> Iterator[str]:
        """Yield what takes its place, then what takes the place of that."""
        seen, wave = {wanted}, [wanted]
        while wave:
            found = [key for at in wave for key in self.library.exercises[at].instead]
            wave = [key for key in dict.fromkeys(found) if key not in seen]
            seen.update(wave)
            yield from wave

    def _against(self, key: str) -> str:
        """Return what speaks against an exercise, in words."""
        exercise = self.library.exercises[key]
        if key in self.barred:
            return "not yet on the way back"
        hit = sorted(set(exercise.avoid) & set(self.banned))
        if hit:
            return f"{', '.join(hit)} restricted"
        lacking = sorted(set(exercise.equipment) & set(self.missing))
        if lacking:
            return f"no {', '.join(word.replace('_', ' ') for word in lacking)}"
        return "" if self._able(exercise) else f"for {exercise.level} lifters"

    def _able(self, exercise: Exercise) -> bool:
        return LEVELS.index(exercise.level) <= LEVELS.index(self.level)
