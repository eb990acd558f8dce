"""One season under one rule set, as a row of a table."""

from typing import Literal

from pydantic import Field

from optimiser.domain.plan import Plan
from optimiser.domain.strict import Strict

RowStatus = Literal[
    "proven",
    "within_gap",
    "stopped",
    "clash",
    "out_of_time",
    "bad_file",
    "out_of_memory",
    "killed",
    "failed",
]

PLANNED: tuple[RowStatus, ...] = ("proven", "within_gap", "stopped")
#: What another try would give again, so that an interrupted batch need not.
SETTLED: tuple[RowStatus, ...] = (*PLANNED, "clash", "out_of_time")


class Result(Strict):
    """What one solve gave.

    Parameters
    ----------
    gap
        Largest gap of its stages, a share (0.01 is 1 %).
    match, at_high, at_medium, at_low
        Match scores, 0-100.
    why_not
        The clash, or what went wrong, where there is no plan.
    peak_load
        Load of the heaviest week, in AU, with matches and practice.
    largest_ramp
        Most per cent by which a week's load lies above the mean of the four open weeks before.
    weeks_at_caps
        Open weeks in which one more session would break a cap.
    deloads, tapers
        Weeks the rules lighten.
    seconds
        Wall time of the solve.
    """

    status: RowStatus
    gap: float | None = None
    match: float | None = None
    at_high: float | None = None
    at_medium: float | None = None
    at_low: float | None = None
    why_not: str = ""
    peak_load: int | None = None
    largest_ramp: float | None = None
    weeks_at_caps: int | None = None
    deloads: int | None = None
    tapers: int | None = None
    seconds: float = Field(default=0.0, ge=0)
    plan: Plan | None = None


class BatchRow(Result):
    """A result with the names of what it is about.

    Parameters
    ----------
    season, file
        Name of the season and its file.
    rules
        Name of the rule set.
    digest
        By which a plan knows its season.
    key
        Of the solve: rows of one key share one result.
    """

    season: str
    file: str = ""
    rules: str
    digest: str = ""
    seed: int = 0
    key: str = ""

    @property
    def planned(self) -> bool:
        """Tell whether there is a plan."""
        return self.status in PLANNED


#: Columns of a table of rows, in order.
COLUMNS = (
    "season", "rules", "status", "gap", "match", "at_high", "at_medium", "at_low", "why_not",
    "peak_load", "largest_ramp", "weeks_at_caps", "deloads", "tapers", "seconds", "digest",
    "seed", "file", "key",
)  # fmt: skip
