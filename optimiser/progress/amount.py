"""How much of a quality was done in a week: its dose, and what it gave and took exactly."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optimiser.athlete.dose_sets import SHARE
from optimiser.domain.quality import Dose, Quality, dose_of
from optimiser.progress.done_session import DoneSession

#: Full doses by which a week of one quality tires at most: beyond it the index says nothing. An
#: engineering choice, no source.
MOST_STRAIN = 3.0


@dataclass(frozen=True)
class Amount:
    """What was done of one quality in one week.

    Parameters
    ----------
    dose
        The dose nearest to it.
    minutes, load
        Of work; load in AU.
    gain, strain
        Shares of a full dose's stimulus and of its fatigue.
    band
        Code of the band, where a record says another than the planned one.
    """

    dose: Dose
    minutes: float
    load: float
    gain: float
    strain: float
    band: str | None = None


def amount_done(
    quality: Quality, rung: int, records: Sequence[DoneSession], full_sets: int
) -> Amount:
    """Return what a week's records of one quality come to.

    More than a full dose gives no more than one and tires by all of its load: a caution, common
    practice, no source.

    Parameters
    ----------
    rung
        That was planned, from 0.
    full_sets
        Working sets of a full dose, by which sets that were counted become minutes.
    """
    minutes = sum(_minutes(quality, rung, each, full_sets) for each in records)
    load = sum(_load(quality, rung, each, full_sets) for each in records)
    bands = [each.band for each in records if each.band]
    return Amount(
        dose=nearest_dose(quality, rung, minutes),
        minutes=minutes,
        load=load,
        gain=gain_of(quality, rung, minutes),
        strain=min(MOST_STRAIN, load / quality.load(Dose.FULL, rung)),
        band=bands[-1] if bands else None,
    )


def nearest_dose(quality: Quality, rung: int, minutes: float) -> Dose:
    """Return the dose whose minutes are nearest; any work at all is at least a touch."""
    if minutes <= 0:
        return Dose.NONE
    return min(list(Dose)[1:], key=lambda dose: (abs(quality.minutes(dose, rung) - minutes), dose))


def gain_of(quality: Quality, rung: int, minutes: float) -> float:
    """Return the share of a full dose's stimulus that so many minutes give, from 0 to 1."""
    doses = quality.doses
    at = [0.0, *(float(quality.minutes(dose, rung)) for dose in list(Dose)[1:])]
    given = [0.0, doses.touch.gain, doses.reduced.gain, doses.full.gain]
    return float(np.interp(minutes, at, given))


def _minutes(quality: Quality, rung: int, record: DoneSession, full_sets: int) -> float:
    """Return the minutes of a record: as said, else those of its dose, sets or load."""
    if record.minutes is not None:
        return record.minutes
    if record.dose is not None:
        return float(quality.minutes(dose_of(record.dose), rung))
    if record.sets is not None:
        return float(quality.minutes(_dose_of_sets(record.sets, full_sets), rung))
    return (record.load or 0.0) / quality.doses.full.rpe


def _dose_of_sets(sets: int, full_sets: int) -> Dose:
    if not sets:
        return Dose.NONE
    return min(SHARE, key=lambda dose: abs(SHARE[dose] * full_sets - sets))


def _load(quality: Quality, rung: int, record: DoneSession, full_sets: int) -> float:
    """Return the load of a record; the usual rating stands in where none was given."""
    if record.au is not None:
        return record.au
    minutes = _minutes(quality, rung, record, full_sets)
    if record.rpe is not None:
        return minutes * record.rpe
    if record.minutes is None:
        return float(quality.load(nearest_dose(quality, rung, minutes), rung))
    spec = quality.spec(nearest_dose(quality, rung, minutes))
    return 0.0 if spec is None else minutes * spec.rpe
