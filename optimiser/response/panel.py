"""A squad's tests athlete by athlete: each with own results and, where logged, own load."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optimiser.response.grid import Grid, make_grid
from optimiser.response.record import Floats, Ints, Load, MeasuredResult, Record, make_record

#: Fewest athletes, and results of each, from which a squad is pooled; others are left out.
LEAST_ATHLETES, LEAST_EACH = 8, 3


@dataclass(frozen=True)
class Panel:
    """Records of athletes on days counted from the same first day.

    Parameters
    ----------
    names, records
        One of each an athlete.
    """

    names: tuple[str, ...]
    records: tuple[Record, ...]

    @property
    def results(self) -> Floats:
        """Return all results, athlete by athlete."""
        return np.concatenate([record.results for record in self.records])

    @property
    def who(self) -> Ints:
        """Return the index of the athlete of every result."""
        counts = [len(record.results) for record in self.records]
        return np.repeat(np.arange(len(counts)), counts)

    def grid(self) -> Grid:
        """Return the sums of all athletes side by side, shape ``(pairs, results)``."""
        parts = [make_grid(record) for record in self.records]
        return Grid(
            parts[0].taus,
            np.concatenate([part.fitness for part in parts], axis=1),
            np.concatenate([part.fatigue for part in parts], axis=1),
        )


def make_panel(results: Sequence[MeasuredResult], loads: Sequence[Load]) -> Panel | None:
    """Return the athletes with enough results; None if they are too few to pool.

    A load with an athlete's name is that athlete's; one without is everybody's.
    """
    own_names = {load.athlete for load in loads} - {""}
    names, records = [], []
    for name in sorted({result.athlete for result in results} - {""}):
        mine = [result for result in results if result.athlete == name]
        load = [each for each in loads if each.athlete == (name if name in own_names else "")]
        record = _record(mine, load or loads, loads)
        if record is not None and len(record.results) >= LEAST_EACH:
            names.append(name)
            records.append(record)
    if len(records) < LEAST_ATHLETES:
        return None
    return Panel(tuple(names), tuple(records))


def _record(
    results: Sequence[MeasuredResult], loads: Sequence[Load], every: Sequence[Load]
) -> Record | None:
    first = min(load.date for load in every)
    kept = [result for result in results if result.date >= first]
    # all athletes count days from the first one of the log
    anchor = Load(first, 0.0, loads[0].athlete)
    return make_record(kept, [anchor, *loads]) if kept else None


def distinct(panel: Panel) -> int:
    """Return how many different histories of load end in a test: what the fit can learn from."""
    seen: set[tuple[int, float, float]] = set()
    for record in panel.records:
        for day in record.days:
            past = record.loads[: int(day)]
            seen.add((int(day), round(float(past.sum()), 1), round(float(past[-14:].sum()), 1)))
    return len(seen)


def tested_days(panel: Panel) -> int:
    """Return the days from the first test to the last."""
    days = np.concatenate([record.days for record in panel.records])
    return int(days.max() - days.min()) + 1
