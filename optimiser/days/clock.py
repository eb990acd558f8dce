"""The hours of a week: starts of sessions and practice, as intervals on the days."""

import datetime as dt
from dataclasses import dataclass

from ortools.sat.python import cp_model

from optimiser.days.day import DAY, minutes_of
from optimiser.days.decisions import Decisions, Slot
from optimiser.days.likes import Costs
from optimiser.days.linear import Linear
from optimiser.days.spacings import Faults

#: Starts are on full five minutes.
STEP = 5
LAST_SCHOOL_DAY = 4
#: A minute away from the usual start, in hundredths of what is liked less.
OFF_USUAL = 1
#: The room that practice takes.
PRACTICE = "practice"


@dataclass(frozen=True)
class ClockItem:
    """Something with a start and an end on one day.

    Parameters
    ----------
    held
        1 if it takes place.
    timed
        1 if it has hours of its own; what takes place without is a fault.
    """

    held: cp_model.IntVar
    timed: cp_model.IntVar
    start: cp_model.IntVar
    minutes: Linear
    interval: cp_model.IntervalVar

    @property
    def end(self) -> Linear:
        """Return when it is over."""
        return self.start + self.minutes


class Hours:
    """Starts of everything in one squad's week."""

    def __init__(self, week: Decisions) -> None:
        self.week, self.model, self.settings = week, week.model, week.task.settings
        self.late: Faults = []
        self.costs: Costs = []
        self.sessions = {slot: self._session(slot) for slot in week.held}
        self.practice = {day: self._practice(day) for day in self._practised()}
        for day in range(7):
            self._gaps(day)

    # --- one thing ----------------------------------------------------------------------------

    def _session(self, slot: Slot) -> ClockItem:
        given = self._held_start(slot[0], slot[1], self.settings.given(slot[0]))
        minutes = self.week.minutes[slot] + self.week.task.extra
        item = self._item(self.week.held[slot], minutes, given)
        day = self.week.day(slot)
        if day.window and self.week.can("hard", slot):
            hard = self.week.mark("hard", slot)
            for bound in (item.start >= day.window[0], item.start <= day.window[1]):
                self.model.add(bound).only_enforce_if(item.timed, hard)
        self._school(item, day.index)
        return item

    def _practised(self) -> list[int]:
        practices = self.week.task.practised
        settled = len(practices.fixed) == practices.count
        return sorted(practices.fixed if settled else practices.order)

    def _practice(self, day: int) -> ClockItem:
        practices = self.week.task.practised
        known = practices.starts.get(day)
        given = self._held_start(PRACTICE, day, None if known is None else _time(known))
        item = self._item(self.week.practice[day], practices.minutes, given)
        if known is None:
            self._school(item, day)
        return item

    def _held_start(self, thing: str, day: int, given: dt.time | None) -> int | None:
        """Return the start that is asked for, a person's own word first."""
        for hold in self.week.task.holds:
            if hold.thing == thing and hold.day == day and hold.on and hold.start is not None:
                return hold.start
        return None if given is None else minutes_of(given)

    def _item(self, held: cp_model.IntVar, minutes: Linear, given: int | None) -> ClockItem:
        model = self.model
        timed, late = model.new_bool_var(""), model.new_bool_var("")
        model.add(timed + late == held)
        self.late.append(late)
        start = self._start(given)
        end = model.new_int_var(0, 2 * DAY, "")
        interval = model.new_optional_interval_var(start, minutes, end, timed, "")
        if given is None:
            model.add(end <= minutes_of(self.settings.closes)).only_enforce_if(timed)
            self._usual(start)
        return ClockItem(held, timed, start, minutes, interval)

    def _start(self, given: int | None) -> cp_model.IntVar:
        if given is not None:
            return self.model.new_constant(given)
        first = -(-minutes_of(self.settings.earliest) // STEP) * STEP
        times = list(range(first, minutes_of(self.settings.latest) + 1, STEP)) or [first]
        return self.model.new_int_var_from_domain(cp_model.Domain.from_values(times), "")

    def _usual(self, start: cp_model.IntVar) -> None:
        settings = self.settings
        usual = min(max(settings.usual, settings.earliest), settings.latest)
        off = self.model.new_int_var(0, DAY, "")
        self.model.add_abs_equality(off, start - minutes_of(usual))
        self.costs.append(OFF_USUAL * off)

    def _school(self, item: ClockItem, day: int) -> None:
        school = self.settings.school
        if school and day <= LAST_SCHOOL_DAY:
            first, last = map(minutes_of, school)
            lessons = self.model.new_fixed_size_interval_var(first, last - first, "")
            self.model.add_no_overlap([lessons, item.interval])

    # --- two things on a day ------------------------------------------------------------------

    def _gaps(self, day: int) -> None:
        hours = 60 * self.settings.same_day_hours
        field, gym = self.sessions.get(("field", day)), self.sessions.get(("gym", day))
        practice = self.practice.get(day)
        within = self.week.task.practices.within
        if field and gym:
            self._apart(field, gym, 0, hours)
        if gym and practice:
            self._apart(gym, practice, hours, hours)
        if field and practice and within:
            both = (field.timed, practice.timed)
            self.model.add(field.start == practice.start).only_enforce_if(both)
        elif field and practice:
            self._apart(field, practice, 0, hours)
        apart = [item.interval for item in (gym, practice, None if within else field) if item]
        self.model.add_no_overlap(apart)

    def _apart(self, one: ClockItem, other: ClockItem, then: int, back: int) -> None:
        """Keep minutes between two things: ``then`` if the first comes first, else ``back``."""
        first = self.model.new_bool_var("")
        both = (one.timed, other.timed)
        self.model.add(other.start >= one.end + then).only_enforce_if(*both, first)
        self.model.add(one.start >= other.end + back).only_enforce_if(*both, first.negated())


def _time(minutes: int) -> dt.time:
    return dt.time(minutes // 60, minutes % 60)
