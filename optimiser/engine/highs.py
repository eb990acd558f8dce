"""HiGHS without a word: its usual start greets on stdout before it can be told not to."""

from collections.abc import Callable, Mapping
from typing import Any

import highspy
from highspy import cb

#: Option by which HiGHS's presolve leaves out its probing: on a season's model it takes several
#: times as long as the search after it, for a bound that a few nodes have as soon.
NO_PROBING = {"presolve_rule_off": 1 << 15}

#: Takes what the solver says and where it may be answered.
Call = Callable[[Any, Any], None]


class SilentHighs(highspy.Highs):
    """A HiGHS instance that prints nothing, on one thread unless told otherwise.

    Parameters
    ----------
    options
        HiGHS's own, by name.
    """

    def __init__(self, **options: bool | int | float | str) -> None:
        super(highspy.Highs, self).__init__()
        for name, value in ({"output_flag": False, "threads": 1} | options).items():
            self.setOptionValue(name, value)

    def run(self) -> highspy.HighsStatus:
        """Solve, and end the threads that helped: a program that ends before them is aborted."""
        try:
            return super().run()
        finally:
            self.resetThreadScheduler(True)

    def listen(self, calls: Mapping[cb.HighsCallbackType, Call]) -> None:
        """Have the solver call at each of these places while it runs."""
        self.setCallback(lambda kind, message, out, into, user: calls[kind](out, into), None)
        for kind in calls:
            self.startCallback(kind)
