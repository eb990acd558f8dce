"""What holds an athlete below the plan in one week: the stage of the way back, and time off."""

import datetime as dt
from collections.abc import Collection, Iterator
from itertools import pairwise
from typing import Self

from pydantic import Field

from optimiser.athlete.availability import DAY, AthleteHistory, AvailabilityEntry, returned
from optimiser.athlete.stages import FREE, OUT, STAGES, Limits
from optimiser.domain.strict import Strict
from optimiser.domain.week_number import number_of

#: Share of the last 1RM in the first weeks after a long break: the first is common practice
#: without a source, the steps after it an engineering choice.
LOADS = (0.7, 0.8, 0.9)


class Restart(Strict):
    """How work begins again after time off, as the scenario's rule on re-entry has it.

    Parameters
    ----------
    days_off
        Days without training from which it counts.
    rung
        Highest rung, counted from 1, of the first week; one more each week after it.
    long_off, bottom
        Days without training from which the first week's highest rung is ``bottom``, if lower.
    volume
        Most work in the first weeks, in per cent of a full dose.
    """

    days_off: int = Field(default=14, ge=1)
    rung: int = Field(default=2, ge=1)
    long_off: int = Field(default=21, ge=1)
    bottom: int = Field(default=1, ge=1)
    volume: tuple[int, ...] = (50, 70, 80, 90)

    def after_long(self) -> Self:
        """Return the same where the time off was a long one."""
        return self.model_copy(update={"rung": min(self.rung, self.bottom)})


class Hold(Limits):
    """Limits of one week of one athlete.

    Parameters
    ----------
    stage
        0 to 6; 0 is no work.
    entered
        True if somebody entered it.
    away
        True if no day of the week is open to training.
    full_share
        Most of the work of a full dose, 0 to 1.
    tags
        Restrictions that hold beside those of the athlete.
    why
        What it comes from, in a few words.
    notes
        For the card.
    programme
        Week of the standing work's programme, from 1, where it began again; None as the squad's.
    days
        What holds on each day of a week in which the stage changes; empty in others.
    """

    stage: int = FREE
    entered: bool = False
    away: bool = False
    full_share: float = 1.0
    tags: frozenset[str] = frozenset()
    why: str = ""
    notes: tuple[str, ...] = ()
    programme: int | None = None
    days: tuple[tuple[dt.date, "Hold"], ...] = ()

    @property
    def free(self) -> bool:
        """Return True if it limits no work of the plan."""
        plain = {"stage": FREE, "entered": False, "tags": frozenset(), "why": "", "notes": ()}
        return self.model_copy(update={**plain, "programme": None, "days": ()}) == NO_HOLD

    def on(self, day: dt.date) -> "Hold":
        """Return what holds on one day."""
        return dict(self.days).get(day, self)

    @property
    def lets_run(self) -> bool:
        """Return True if top speed is allowed."""
        return self.speed >= 100

    def restarted(self, restart: Restart, week: int, *, volume: bool) -> Self:
        """Return it held further, ``week`` whole weeks after work began again.

        Parameters
        ----------
        volume
            False where the plan itself already keeps the volume of the first weeks.
        """
        since = number_of(week)
        begun = since if self.programme is None else min(since, self.programme)
        if week >= max(len(restart.volume), len(LOADS)):
            return self.model_copy(update={"programme": begun, "days": self._later(restart, week)})
        rung = restart.rung + week
        told = f"week {since} after time off"
        changed: dict[str, object] = {
            "rung": rung if self.rung is None else min(rung, self.rung),
            "load": min(self.load, (*LOADS, 1.0)[min(week, len(LOADS))]),
            "why": self.why or told,
        }
        if volume and week < len(restart.volume):
            changed["full_share"] = restart.volume[week] / 100
        changed |= {"programme": begun, "days": self._later(restart, week, volume=volume)}
        return self.model_copy(update=changed)

    def _later(
        self, restart: Restart, week: int, *, volume: bool = False
    ) -> tuple[tuple[dt.date, "Hold"], ...]:
        held = [(day, hold.restarted(restart, week, volume=volume)) for day, hold in self.days]
        return tuple(held)


#: Nothing holds.
NO_HOLD = Hold()


def hold_for(
    history: AthleteHistory,
    monday: dt.date,
    restart: Restart | None = None,
    gone: Collection[dt.date] = (),
) -> Hold:
    """Return what holds an athlete in the week from ``monday``.

    What is said of the week as a whole keeps to the lowest stage of its days with training; each
    day keeps to its own.

    Parameters
    ----------
    gone
        Further days without training.
    """
    days = [monday + step * DAY for step in range(7)]
    open_days = [day for day in days if history.trains(day)]
    if not open_days:
        entry = history.entry(days[-1])
        return _out(entry) if entry and entry.level == OUT else Hold(away=True)
    found = _on(history, min(open_days, key=history.stage))
    notes = (*found.notes, *_changes(history, days), *history.remarks(days[0], days[-1]))
    held = tuple((day, _on(history, day)) for day in open_days)
    if all(hold.stage == found.stage for _, hold in held):
        held = ()
    found = found.model_copy(update={"notes": notes, "days": held})
    used = restart or Restart()
    back = returned(monday, history, gone, used.days_off)
    if back is None:
        return found
    week = max(0, (monday - back).days) // 7
    long = returned(monday, history, gone, max(used.days_off, used.long_off)) == back
    return found.restarted(used.after_long() if long else used, week, volume=True)


def _on(history: AthleteHistory, day: dt.date) -> Hold:
    """Return what the stage of one day of training allows."""
    entry = history.entry(day)
    return _staged(entry) if entry and entry.level < FREE else Hold(entered=entry is not None)


def _out(entry: AvailabilityEntry) -> Hold:
    """Return the hold of somebody who is out: no work, and since when."""
    return Hold(stage=OUT, entered=True, field=False, why=f"since {entry.first}")


def _staged(entry: AvailabilityEntry) -> Hold:
    stage = STAGES[entry.level]
    where = f"stage {entry.level} of the way back since {entry.first}"
    said = (f"the medical team: {entry.words}",) if entry.words else ()
    if entry.tags and entry.level > 1:
        said = (
            *said,
            f"what loads {', '.join(entry.tags)} is left out altogether, also where this stage "
            "allows it, until the medical team takes it out of the limits",
        )
    return Hold(
        stage=entry.level,
        entered=True,
        tags=frozenset(entry.tags),
        why=where,
        programme=1,
        notes=(f"{where}: {stage.words}; the medical team alone decides on the next", *said),
        **stage.model_dump(exclude={"words"}),
    )


def _changes(history: AthleteHistory, days: list[dt.date]) -> Iterator[str]:
    """Say what changes inside the week."""
    off = [day for day in days if not history.trains(day)]
    if off:
        yield f"no work on {', '.join(f'{day:%a %d %b}' for day in off)}"
    open_days = [day for day in days if history.trains(day)]
    for before, day in pairwise(open_days):
        now = history.stage(day)
        if now != history.stage(before):
            what = f"stage {now}: {STAGES[now].words}" if now < FREE else "with the squad"
            yield f"from {day:%a %d %b} on {what}; each session keeps to its day's stage"
