"""One line on the terminal that says how far the search has come."""

import shutil
from math import isfinite
from typing import TextIO

from optimiser.response.readiness import UNITS


def progress_text(seconds: float, cost: float, bound: float) -> str:
    """Return time, the season cost of the best plan so far, and how much better one could be."""
    told = [f"{seconds:4.0f} s", f"best plan costs {cost / UNITS:.1f} points"]
    if isfinite(bound) and bound > 0:
        gap = max(0.0, (cost - bound) / max(1.0, cost))
        told.append(f"none can be more than {100 * gap:.1f} % better")
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
