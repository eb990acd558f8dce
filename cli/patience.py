"""Ctrl-C while modules are imported: it is heard once they are there.

Inside an import Python can print and forget it, and compiled libraries make other errors of it.
"""

import signal
from types import FrameType

#: What a shell reports for a program that was stopped by hand.
STOPPED = 130
#: Seconds until a key press that came too early is heard again.
AGAIN = 0.01


def hear_between_imports() -> bool:
    """Let Ctrl-C wait for imports to end; return False if it is not ours to handle."""
    if signal.getsignal(signal.SIGINT) is not signal.default_int_handler:
        return False
    if hasattr(signal, "setitimer"):
        signal.signal(signal.SIGALRM, _press)
        signal.signal(signal.SIGINT, _press)
    return True


def hear_no_more() -> None:
    """Ignore Ctrl-C, one that still waits for an import too."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(signal, "setitimer"):
        signal.signal(signal.SIGALRM, signal.SIG_IGN)


def _press(_: int, frame: FrameType | None) -> None:
    if _importing(frame):
        signal.setitimer(signal.ITIMER_REAL, AGAIN)
    else:
        raise KeyboardInterrupt


def _importing(frame: FrameType | None) -> bool:
    """Tell whether any caller is Python's own code for imports."""
    while frame is not None:
        if str(frame.f_globals.get("__name__")).startswith("importlib._bootstrap"):
            return True
        frame = frame.f_back
    return False
