"""Help for a search: the solution it starts from is improved in another way, and handed back."""

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from threading import Event
from types import TracebackType
from typing import Self

Halt = Callable[[], bool]
#: Improves a solution; ends soon once what it is given says so.
Improve = Callable[[list[int], Halt], list[int]]


class Aid:
    """One solution improved, beside the search or when the result is asked for.

    Parameters
    ----------
    improve
        The other way.
    values
        The solution.
    beside
        Work on another core from the start; else in the caller's thread, when it asks.
    """

    def __init__(self, improve: Improve, values: list[int], *, beside: bool = True) -> None:
        self._improve, self._values = improve, values
        self._pool = ThreadPoolExecutor(1) if beside else None
        self._over = Event()
        self._work: Future[list[int]] | None = None
        self._better: list[int] | None = None

    def __enter__(self) -> Self:
        if self._pool is not None:
            self._work = self._pool.submit(self._improve, self._values, self._over.is_set)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._over.set()
        while self._pool is not None:
            try:
                self._pool.shutdown(cancel_futures=True)
                break
            except KeyboardInterrupt:
                # it ends within a moment in any case, and the search has its result
                continue

    def result(self) -> list[int]:
        """Return the improved solution, once it is as good as it gets."""
        if self._better is None:
            work = self._work
            self._better = (
                work.result() if work else self._improve(self._values, self._over.is_set)
            )
        return self._better
