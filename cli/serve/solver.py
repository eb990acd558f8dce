"""One job at a time, each in a process that ends when something else is wanted."""

import threading
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing import get_context
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess

from cli.serve.jobs import Done, Failed, PageJob, Sooner, Told
from cli.serve.worker import work

#: A child is started afresh: a copy of a process with threads is not safe.
CONTEXT = get_context("spawn")
#: Processes kept ready at most.
SPARE = 2
DIED = Failed("the process that searched has ended")
Report = Callable[[object, bool], None]


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

    def take(self, job: PageJob) -> bool:
        """Give it a job, and tell whether it is alive to do it."""
        with suppress(OSError):
            if self.process.is_alive():
                self.connection.send(job)
                return True
        self.end()
        return False

    def end(self) -> None:
        self.process.kill()
        self.process.join()
        self.connection.close()


#: Processes begun for a season that is not open yet.
_EARLY: list[_Hand] = []


def begin_early() -> None:
    """Begin a process now, for the season that people are about to make or open."""
    if not _EARLY:
        _EARLY.append(_Hand.start())


def end_early() -> None:
    """End the process that no season came to need."""
    while _EARLY:
        _EARLY.pop().end()


class JobRunner:
    """Starts, follows and ends jobs.

    A spare process is kept ready, as it takes seconds to start one.

    Parameters
    ----------
    report
        Called from a thread of its own with what was found, and whether that is all; never for a
        job that was ended.
    spare
        Whether to keep one ready; without, the first job waits for its process.
    """

    def __init__(self, report: Report, *, spare: bool = True) -> None:
        self._report = report
        self._lock = threading.Lock()
        self._busy: _Hand | None = None
        self._spare = spare
        self._idle = [_EARLY.pop() if _EARLY else _Hand.start()] if spare else []
        self._since = 0.0
        self._words = ""
        self._reporting = 0

    def start(self, job: PageJob) -> None:
        """Begin a job; one that runs is ended first."""
        with self._lock:
            self._end()
            hand = self._taken(job)
            if not self._idle and self._spare:
                self._idle.append(_Hand.start())
            self._busy, self._since, self._words = hand, time.monotonic(), ""
        threading.Thread(target=self._follow, args=(hand,), daemon=True).start()

    def stop(self) -> None:
        """End the job that runs, if any."""
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
        """Return the id of the process that works, or None."""
        with self._lock:
            return self._busy.process.pid if self._busy else None

    @property
    def spare(self) -> list[int | None]:
        """Return the ids of the processes that wait."""
        with self._lock:
            return [hand.process.pid for hand in self._idle]

    def progress(self) -> tuple[float, str] | None:
        """Return seconds and words of the job that runs, or None.

        A job runs until what it came to has been taken in.
        """
        with self._lock:
            if self._busy is None and not self._reporting:
                return None
            return time.monotonic() - self._since, self._words

    def _taken(self, job: PageJob) -> _Hand:
        """Return a process that has taken the job; those that have died are passed over."""
        while True:
            hand = self._idle.pop() if self._idle else _Hand.start()
            if hand.take(job):
                return hand

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
        found: object = None
        try:
            while found is None:
                told = hand.connection.recv()
                if isinstance(told, Done):
                    found = told.found
                elif isinstance(told, Told):
                    self._tell(hand, told.words)
                elif isinstance(told, Sooner) and self._mine(hand):
                    self._report(told.found, False)
        except (EOFError, OSError):
            found = None
        with self._lock:
            if self._busy is not hand:
                return
            self._free(hand, reusable=found is not None)
            self._reporting += 1
        try:
            # a process that died by itself found nothing
            self._report(DIED if found is None else found, True)
        finally:
            with self._lock:
                self._reporting -= 1

    def _mine(self, hand: _Hand) -> bool:
        with self._lock:
            return self._busy is hand

    def _tell(self, hand: _Hand, words: str) -> None:
        with self._lock:
            if self._busy is hand:
                self._words = words
