"""HiGHS without a word: its usual start greets on stdout before it can be told not to."""

from collections.abc import Callable, Mapping
from typing import Any

import highspy
from highspy import cb

#: Rules of HiGHS's presolve that are left out, by their bits. Probing (15) took several times as
#: long on a season's model as the search after it, for a bound that a few nodes have as soon. Of
#: the substitutions (8 free columns, 9 doubleton equations, 12 aggregator) version 1.16.0 makes
#: some that pass over a bound: its own count of a solution was then 2 % below what it costs.
LEFT_OUT = sum(1 << rule for rule in (8, 9, 12, 15))

#: Takes what the solver says and where it may be answered.
Call = Callable[[Any, Any], None]

#: What every instance is told first.
USUAL: dict[str, bool | int] = {"output_flag": False, "threads": 1, "presolve_rule_off": LEFT_OUT}


class SilentHighs(highspy.Highs):
    """A HiGHS instance that prints nothing, on one thread unless told otherwise.

    Parameters
    ----------
    options
        HiGHS's own, by name.
    """

    def __init__(self, **options: bool | int | float | str) -> None:
        super(highspy.Highs, self).__init__()
        for name, value in (USUAL | options).items():
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
