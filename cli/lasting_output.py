"""Output that outlives its reader, so that what is to be written is written all the same.

Whoever pipes a command into a pager and has soon read enough still wants its plan put in force.
"""

import io
import os
import sys
from typing import Any


class _Lasting(io.FileIO):
    """A file for writing that goes nowhere once nobody reads it any more."""

    def write(self, data: Any) -> int:
        """Write what a reader takes; the rest is dropped."""
        try:
            return super().write(data)
        except BrokenPipeError:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, self.fileno())
            os.close(nowhere)
            return super().write(data)


def outlive_readers() -> None:
    """Let the process go on after whoever reads what it says has gone."""
    for name in ("stdout", "stderr"):
        real = getattr(sys, name)
        if real is getattr(sys, f"__{name}__") and isinstance(real, io.TextIOWrapper):
            setattr(sys, name, _lasting(real))


def _lasting(real: io.TextIOWrapper) -> io.TextIOWrapper:
    real.flush()
    return io.TextIOWrapper(
        io.BufferedWriter(_Lasting(real.fileno(), "wb", closefd=False)),
        encoding=real.encoding,
        errors=real.errors,
        line_buffering=real.line_buffering,
        write_through=real.write_through,
    )
