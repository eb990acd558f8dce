"""The program: it starts the command line and ends it, whatever Ctrl-C does in between.

Nothing that takes time is imported before the signal is in hand.
"""

import atexit
import os
import sys
from contextlib import suppress

from cli.patience import STOPPED, hear_between_imports, hear_no_more


def run() -> None:
    """Run as a program, which winds up in peace: its result is out, and processes are let go.

    It leaves before compiled libraries clear up after themselves: a solver that was stopped can
    still have a thread, and would abort a program that has done its work.
    """
    code: list[int] = []
    # what is registered first is called last
    atexit.register(lambda: _leave(code))
    _open_what_is_closed()
    ours = hear_between_imports()
    try:
        from cli.main import main

        main()
    except SystemExit as ended:
        code.append(ended.code if isinstance(ended.code, int) else 1)
    except KeyboardInterrupt:
        code.append(STOPPED)
    finally:
        if ours:
            hear_no_more()
    sys.exit(code[0] if code else 0)


def _open_what_is_closed() -> None:
    """Send what is written to a stream that was closed from outside nowhere: it is then None."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115


def _leave(code: list[int]) -> None:
    """End the process with its exit code, if it came to one."""
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError):
            stream.flush()
    if code:
        os._exit(code[0])


if __name__ == "__main__":
    run()
