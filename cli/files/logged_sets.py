"""Sets logged in the file of what was done: whether they are of lifts that can be tested."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from cli.files.errors import InputError
from cli.files.known_keys import nearest
from optimiser.athlete.exercise import Exercise
from optimiser.progress.done_session import DoneSession


def check_logged(
    path: Path, sessions: Sequence[DoneSession], exercises: Mapping[str, Exercise]
) -> None:
    """Refuse sets of what is not a lift of the library.

    Raises
    ------
    InputError
        With the line of the first of them.
    """
    lifts = [key for key, each in exercises.items() if each.lifted]
    for each in sessions:
        if each.exercise is not None and each.exercise not in lifts:
            close = nearest(each.exercise, lifts)
            do = f"did you mean {close}?" if close else f"lifts: {', '.join(sorted(lifts))}"
            where = ", ".join(part for part in (each.where, "exercise") if part)
            raise InputError(path, where, "must name a lift of the library", each.exercise, do)
