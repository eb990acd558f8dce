"""One line on the terminal that says how far the search has come."""

import shutil
from math import isfinite
from typing import TextIO

from cli.render.costs import cost_text


def progress_text(
    stage: str, seconds: float, objective: float, bound: float, score: float | None = None
) -> str:
    """Return time, best and bound of a stage, and the match score of the first whole plan."""
    told = [f"{stage} {seconds:4.0f} s", f"best {cost_text(stage, objective)}"]
    if isfinite(bound):
        gap = (objective - bound) / max(1.0, abs(objective))
        told.append(f"bound {cost_text(stage, bound)} (gap {100 * max(0.0, gap):.1f} %)")
    if score is not None:
        told.append(f"first plan scores {score:.1f}")
    return "  ".join(told)


class ProgressLine:
    """A line that is written over; silent where the stream is no terminal."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self.live = stream.isatty()
        self._shown = 0

    def show(self, words: str) -> None:
        """Put ``words`` where the last ones stood."""
        if not self.live:
            return
        words = words[: shutil.get_terminal_size().columns - 1]
        self._stream.write(f"\r{words.ljust(self._shown)}")
        self._stream.flush()
        self._shown = len(words)

    def clear(self) -> None:
        """Wipe the line."""
        if self._shown:
            self._stream.write(f"\r{' ' * self._shown}\r")
            self._stream.flush()
        self._shown = 0
