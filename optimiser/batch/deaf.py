"""Processes that a key press leaves alone: the one who started them ends them."""

import signal
import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def deaf() -> Iterator[None]:
    """Start processes in here: they do not hear Ctrl-C.

    A terminal sends it to all of them at once, and each would end in its own words. A press while
    the block lasts, a fraction of a second, must be made again.
    """
    # one that has grown is replaced by another between two jobs: nothing is lost, nothing to tell
    warnings.filterwarnings("ignore", "A worker stopped while some jobs", UserWarning)
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    # unlike a mask or a handler, this is what a new process begins with
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
