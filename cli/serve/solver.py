"""One search at a time, each in a process that ends when something else is wanted."""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing import get_context
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess

from cli.serve.worker import Done, Job, Told, work

#: A child is started afresh: a copy of a process with threads is not safe.
CONTEXT = get_context("spawn")
#: Processes kept ready at most.
SPARE = 2


@dataclass
class _Hand:
    """A process that waits for a job, or does one."""

    process: BaseProcess
    connection: Connection

    @classmethod
    def start(cls) -> "_Hand":
        ours, theirs = CONTEXT.Pipe()
        process = CONTEXT.Process(target=work, args=(theirs,), daemon=True)
        process.start()
        theirs.close()
        return cls(process, ours)

    def end(self) -> None:
        self.process.kill()
        self.process.join()
        self.connection.close()


class Solver:
    """Starts, follows and ends searches.

    A spare process is kept ready, as it takes seconds to start one.

    Parameters
    ----------
    done
        Called from a thread of its own with what a search came to; never for one that was ended.
    """

    def __init__(self, done: Callable[[Done], None]) -> None:
        self._report = done
        self._lock = threading.Lock()
        self._busy: _Hand | None = None
        self._idle = [_Hand.start()]
        self._since = 0.0
        self._words = ""

    def start(self, job: Job) -> None:
        """Begin a search; one that runs is ended first."""
        with self._lock:
            self._end()
            hand = self._idle.pop() if self._idle else _Hand.start()
            if not self._idle:
                self._idle.append(_Hand.start())
            self._busy, self._since, self._words = hand, time.monotonic(), ""
            hand.connection.send(job)
        threading.Thread(target=self._follow, args=(hand,), daemon=True).start()

    def stop(self) -> None:
        """End the search that runs, if any."""
        with self._lock:
            self._end()

    def close(self) -> None:
        """End everything."""
        with self._lock:
            self._end()
            for hand in self._idle:
                hand.end()
            self._idle.clear()

    @property
    def running(self) -> int | None:
        """Return the id of the process that searches, or None."""
        with self._lock:
            return self._busy.process.pid if self._busy else None

    def progress(self) -> tuple[float, str] | None:
        """Return seconds and words of the search that runs, or None."""
        with self._lock:
            if self._busy is None:
                return None
            return time.monotonic() - self._since, self._words

    def _end(self) -> None:
        if self._busy:
            self._busy.end()
        self._busy = None

    def _free(self, hand: _Hand, *, reusable: bool) -> None:
        """Keep a process that is done for later, if it can be used again."""
        self._busy = None
        if reusable and len(self._idle) < SPARE:
            self._idle.append(hand)
        else:
            hand.end()

    def _follow(self, hand: _Hand) -> None:
        """Take in what a process tells until it is done, or until it has been ended."""
        found: Done | None = None
        try:
            while found is None:
                told = hand.connection.recv()
                if isinstance(told, Done):
                    found = told
                elif isinstance(told, Told):
                    self._tell(hand, told.words)
        except (EOFError, OSError):
            found = None
        with self._lock:
            if self._busy is not hand:
                return
            self._free(hand, reusable=found is not None)
        # a process that died by itself found nothing
        self._report(found or Done("out_of_time"))

    def _tell(self, hand: _Hand, words: str) -> None:
        with self._lock:
            if self._busy is hand:
                self._words = words
