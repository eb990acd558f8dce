"""Processes that a key press leaves alone: the one who started them ends them."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def deaf() -> Iterator[None]:
    """Start processes in here: they, and what starts them later, do not hear Ctrl-C.

    A terminal sends it to all of them at once, and each would end in its own words. This process
    hears it when the block ends.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
