"""Long calls into solvers, during which a key press is heard.

Python looks for Ctrl-C only between its own steps, never inside a solver's. So the solver works in
a thread of its own, and this one waits in short steps.
"""

from collections.abc import Callable
from threading import Event, Thread
from typing import Generic, TypeVar

from ortools.sat.python import cp_model

Result = TypeVar("Result")

#: Longest time a key press waits, in seconds.
PAUSE = 0.1


class _Task(Thread, Generic[Result]):
    """A thread that keeps what its work returned or raised."""

    def __init__(self, work: Callable[[], Result]) -> None:
        super().__init__(daemon=True)
        self._work = work
        self.result: list[Result] = []
        self.error: BaseException | None = None
        # a join that a key press breaks off can take a running thread for ended
        self.over = Event()

    def run(self) -> None:
        try:
            self.result.append(self._work())
        except BaseException as error:
            self.error = error
        finally:
            self.over.set()


def interruptible(work: Callable[[], Result], stop: Callable[[], None]) -> tuple[Result, bool]:
    """Return what ``work`` returns, and whether Ctrl-C was pressed meanwhile.

    Parameters
    ----------
    stop
        Makes ``work`` return soon; called on Ctrl-C.
    """
    thread, pressed = _Task(work), False
    thread.start()
    while not thread.over.is_set():
        try:
            thread.over.wait(PAUSE)
        except KeyboardInterrupt:
            pressed = True
            stop()
    if thread.error is not None:
        raise thread.error
    return thread.result[0], pressed


def solve(
    solver: cp_model.CpSolver, model: cp_model.CpModel
) -> tuple[cp_model.CpSolverStatus, bool]:
    """Run CP-SAT; return its status and whether Ctrl-C ended it."""
    solver.parameters.catch_sigint_signal = False
    return interruptible(lambda: solver.solve(model), solver.stop_search)


def solve_or_raise(solver: cp_model.CpSolver, model: cp_model.CpModel) -> cp_model.CpSolverStatus:
    """Run CP-SAT; return its status.

    Raises
    ------
    KeyboardInterrupt
        If Ctrl-C ended it.
    """
    status, pressed = solve(solver, model)
    if pressed:
        raise KeyboardInterrupt
    return status
