"""Rule sets against each other, season by season."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from optimiser.batch.row import BatchRow

#: Points of match score below which two plans count as equal.
SAME = 0.05
RESAMPLES = 2000
COVER = 95


@dataclass(frozen=True)
class Comparison:
    """One rule set against the base set.

    Parameters
    ----------
    seasons, planned, clash, trouble
        How many there are, and how they ended; ``trouble`` is anything that proves nothing.
    match
        Median match score of its plans.
    pairs
        Seasons planned under both.
    wins, draws, losses
        Of these pairs, by match score.
    difference, low, high
        Median difference in points, and its bootstrap interval; None for the base itself.
    """

    rules: str
    seasons: int
    planned: int
    clash: int
    trouble: int
    match: float | None
    pairs: int = 0
    wins: int = 0
    draws: int = 0
    losses: int = 0
    difference: float | None = None
    low: float | None = None
    high: float | None = None


def compare_rule_sets(rows: Sequence[BatchRow], base: str) -> list[Comparison]:
    """Return every rule set compared with ``base``, best first.

    Ranked by the median difference, the base itself at 0; sets without a pair come last.
    """
    names = list(dict.fromkeys(row.rules for row in rows))
    found = [_one(rows, name, base) for name in names]
    return sorted(found, key=lambda item: _rank(item, base), reverse=True)


def bootstrap_interval(
    values: npt.ArrayLike, *, resamples: int = RESAMPLES, cover: float = COVER, seed: int = 0
) -> tuple[float, float]:
    """Return the percentile interval of the median of ``values``.

    Parameters
    ----------
    values
        Shape ``(n,)``, at least one.
    cover
        Per cent of the resampled medians inside.

    References
    ----------
    Efron (1979), Annals of Statistics 7(1): 1-26.
    """
    held = np.asarray(values, dtype=np.float64)
    if held.ndim != 1 or not held.size:
        raise ValueError(f"values must be one row of at least one (got shape {held.shape})")
    drawn = np.random.default_rng(seed).integers(0, held.size, size=(resamples, held.size))
    medians = np.median(held[drawn], axis=1)
    low, high = np.percentile(medians, [(100 - cover) / 2, (100 + cover) / 2])
    return float(low), float(high)


def _one(rows: Sequence[BatchRow], name: str, base: str) -> Comparison:
    here = [row for row in rows if row.rules == name]
    scores = [row.match for row in here if row.planned and row.match is not None]
    planned = sum(row.planned for row in here)
    clash = sum(row.status == "clash" for row in here)
    alone = Comparison(
        name,
        seasons=len(here),
        planned=planned,
        clash=clash,
        trouble=len(here) - planned - clash,
        match=float(np.median(scores)) if scores else None,
    )
    return alone if name == base else _paired(alone, rows, base)


def _paired(alone: Comparison, rows: Sequence[BatchRow], base: str) -> Comparison:
    mine, other = _scores(rows, alone.rules), _scores(rows, base)
    gained = np.array([mine[key] - other[key] for key in mine if key in other])
    if not gained.size:
        return alone
    low, high = bootstrap_interval(gained)
    return replace(
        alone,
        pairs=int(gained.size),
        wins=int((gained > SAME).sum()),
        draws=int((abs(gained) <= SAME).sum()),
        losses=int((gained < -SAME).sum()),
        difference=float(np.median(gained)),
        low=low,
        high=high,
    )


def _scores(rows: Sequence[BatchRow], name: str) -> dict[str, float]:
    return {
        row.file or row.season: row.match
        for row in rows
        if row.rules == name and row.planned and row.match is not None
    }


def _rank(item: Comparison, base: str) -> tuple[float, int]:
    level = 0.0 if item.rules == base else item.difference
    return (-np.inf if level is None or not item.planned else level, item.planned)
