"""A plan's week put on days."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from copy import copy
from dataclasses import replace
from itertools import pairwise

from optimiser.athlete.library import Library, default_library
from optimiser.athlete.standing import Preparation, default_preparation
from optimiser.athlete.standing_week import (
    FINISH,
    WARM_UP,
    Standing,
    programme_week,
    standing_week,
)
from optimiser.athlete.week_load import week_load
from optimiser.days.clock_faults import clock_faults
from optimiser.days.day import DAY, Day, Kind, WeekOfDays, minutes_of, season_days
from optimiser.days.done_days import NOTHING_DONE, DoneDays
from optimiser.days.faults import faults
from optimiser.days.holds import DayHold, over
from optimiser.days.kept import kept_week, practised_as, stands, with_past
from optimiser.days.pieces import Held, Piece, share, week_pieces
from optimiser.days.placing import Placed, Put, Task
from optimiser.days.practice import Practices, week_practices
from optimiser.days.school import Free, Pupils, always
from optimiser.days.spacing_settings import DaySettings, SessionLimits
from optimiser.days.timetable import place_week, place_whole_week
from optimiser.days.week_plan import (
    DayPlan,
    MatchInfo,
    PlannedWork,
    PracticeInfo,
    SessionPlan,
    WeekPlan,
    week_minutes,
)
from optimiser.domain.document import SessionDayPart
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.practice import Practice
from optimiser.domain.quality import Place
from optimiser.domain.season import Season, Week

Bounds = tuple[str | None, str | None]
PLACES: tuple[Place, ...] = ("field", "gym")
#: Least minutes of the plan's own work that a second session is made for (engineering choice).
LEAST = 15
#: Most minutes that a session has beside the plan's own work.
MOST_BESIDE = max(WARM_UP.values()) + FINISH
USUAL_SETTINGS = DaySettings()
USUAL_LIMITS = SessionLimits()
USUAL_PRACTICE = Practice()
ALONE = (
    "The days that the groups share this week are not in the plan, or do not fit its sessions any "
    "more: these are the days of this group alone."
)

WITHIN = "Field work on a day of team practice is the first part of practice."
BEFORE = "Field work on a day of team practice comes before it; one warm-up may serve both."


class WeekMaker:
    """Puts weeks of one season on days.

    Parameters
    ----------
    settings
        The spacings; those of the rule `spacing` if it is in use.
    limits
        How much a session holds.
    practice
        Team practice by phase.
    calendar
        For the season of a group: the season of all, around whose matches every group's days are.
    preparation, library
        Standing work, and the exercises it is made of.
    holds
        What people ask of weeks, by week (from 0).
    pupils
        Those at school while the others train, if there are any.
    done
        What has been done, by week (from 0).
    planned
        The season and its plan as they were before anything was done.
    """

    def __init__(
        self,
        season: Season,
        settings: DaySettings = USUAL_SETTINGS,
        limits: SessionLimits = USUAL_LIMITS,
        practice: Practice = USUAL_PRACTICE,
        calendar: Season | None = None,
        preparation: Preparation | None = None,
        library: Library | None = None,
        holds: Mapping[int, Sequence[DayHold]] | None = None,
        pupils: Pupils | None = None,
        done: Mapping[int, DoneDays] | None = None,
        planned: tuple[Season, Plan] | None = None,
    ) -> None:
        self.season, self.settings, self.pupils = season, settings, pupils
        self.holds, self.done = holds or {}, done or {}
        self.preparation = preparation or default_preparation()
        self.library = library or default_library()
        self.limits, self.practice = limits, practice
        self.calendar, self.planned = calendar, planned
        self.days = self._days()

    def _days(self) -> list[WeekOfDays]:
        own = season_days(self.season, self.settings)
        if self.calendar is None:
            return own
        every = season_days(self.calendar, self.settings)
        weeks = zip(self.season.weeks, own, every, strict=True)
        return [mine if week.closed else all_ for week, mine, all_ in weeks]

    def week(
        self,
        plan: Plan,
        index: int,
        written: Sequence[SessionDayPart] = (),
        holds: Sequence[DayHold] = (),
    ) -> WeekPlan:
        """Return week ``index`` (from 0) of ``plan`` day by day.

        Parameters
        ----------
        written
            The days that its sessions share with those of other groups.
        holds
            What a person asks of the week beside what stands in the files; days that are written
            give way to it.
        """
        task, placed, kept = self._as_asked(plan, index, written)
        if holds:
            asked = replace(task, holds=over(task.holds, holds), stay=placed)
            (task, placed), kept = self._placed(index, asked, None), False
        return self.show(index, task, placed, written, kept=kept)

    def _as_asked(
        self, plan: Plan, index: int, written: Sequence[SessionDayPart] = ()
    ) -> tuple[Task, Placed, bool]:
        """Return a week on its days, and whether these are the ones that are written for it.

        What the files ask of it and what has been done in it moves no more of it than it must.
        """
        usual = practised_as(self.task(plan, index), written)
        kept = kept_week(usual, written)
        task, placed = self._placed(index, usual, kept)
        done, holds = self.done.get(index, NOTHING_DONE), tuple(self.holds.get(index, ()))
        if not holds and (not done.recorded or stands(done, task, placed)):
            return task, placed, kept is not None
        before = self._as_planned(index, written) if done.recorded else None
        seen = before or (task, placed)
        done = with_past(done, *seen)
        stay = seen[1] if seen[0].pieces == task.pieces else placed
        asked = self._asked(index, replace(task, holds=holds, done=done, stay=stay))
        return *self._placed(index, asked, None), False

    def _as_planned(
        self, index: int, written: Sequence[SessionDayPart]
    ) -> tuple[Task, Placed] | None:
        """Return a week as it was before anything was done in it, where that is known."""
        if self.planned is None:
            return None
        season, plan = self.planned
        maker = copy(self)
        maker.season, maker.days = season, maker._days()
        task = practised_as(maker.task(plan, index), written)
        return maker._placed(index, task, kept_week(task, written))

    def _asked(self, index: int, task: Task) -> Task:
        """Return a week with room for what was done in it."""
        done = task.done
        counts = {
            place: self._count(task.pieces[place], task.counts[place], done) for place in PLACES
        }
        practices = self._practices(index, done)
        return replace(task, counts=counts, practices=practices)

    def practices(self, index: int) -> Practices:
        """Return the team practices of week ``index`` (from 0)."""
        return self._practices(index, self.done.get(index, NOTHING_DONE))

    def _practices(self, index: int, done: DoneDays) -> Practices:
        week = self.season.weeks[index]
        usual = self.practice.of(week.phase)
        return week_practices(week, self.days[index], usual, done.practice, done.until)

    def _count(self, pieces: Sequence[Piece], count: int, done: DoneDays) -> int:
        """Return how many sessions hold what was done and what is left to do."""
        there, left = len(done.sessions(pieces)), done.left(pieces)
        if not there:
            return count
        return there + (self._worth(left, max(1, count - there)) if left else 0)

    def alone(
        self, plan: Plan, index: int, holds: Sequence[DayHold] = (), stay: Placed | None = None
    ) -> tuple[Task, Placed]:
        """Return week ``index`` (from 0) as a task, and its best days and hours.

        Parameters
        ----------
        holds
            What a person asks of the week beside what stands in the files.
        stay
            The week as it stood, of which as much as can be is left.
        """
        task, placed, _ = self._as_asked(plan, index)
        if not holds and stay is None:
            return task, placed
        asked = replace(task, holds=over(task.holds, holds), stay=stay or placed)
        return self._placed(index, asked, None)

    def beside(self, index: int, task: Task, placed: Placed) -> int:
        """Return the most minutes that a session of a placed week has beside the plan's work."""
        alone = self._sessions(placed, task, ())
        return _beside(alone, self._prepared(index, self.days[index], alone))

    def show(
        self,
        index: int,
        task: Task,
        placed: Placed,
        written: Sequence[SessionDayPart] = (),
        *,
        kept: bool = True,
        free: Free = always,
    ) -> WeekPlan:
        """Return a placed week day by day.

        Parameters
        ----------
        written, kept
            The days shared with other groups, and whether they are the ones it is on.
        free
            Asked when those at school have rooms and staff that others use too.
        """
        week, days = self.season.weeks[index], self.days[index]
        alone = self._sessions(placed, task, written if kept else ())
        on_days = self._prepared(index, days, alone)
        made = tuple(self._day(week, day, on_days.get(day.index, []), placed, task) for day in days)
        own = self.pupils.own_times(made, free) if self.pupils else ()
        trained = self.pupils if any(day.sessions or day.practice for day in made) else None
        return WeekPlan(
            week=week.number,
            monday=week.monday,
            phase=week.phase,
            days=made,
            load=week_load([day.load for day in made]),
            minutes=week_minutes(made),
            faults=tuple(_faults(task, placed)),
            notes=(
                *([ALONE] if self.calendar and not kept else []),
                *_notes(made, task),
                *(trained.notes(own) if trained else ()),
            ),
            own_times=own,
        )

    def _placed(self, index: int, task: Task, kept: Placed | None) -> tuple[Task, Placed]:
        """Return a week on its days, with room for the warm-up and standing work of each session.

        How long these take depends on the days. There is room for the most they ever take; where
        a week has none, they are looked up once sessions stand, and the week is put on its days
        again until what they take is what was thought.
        """
        if task.extra < MOST_BESIDE:
            roomy = replace(task, extra=MOST_BESIDE)
            whole = place_whole_week(roomy, kept)
            if whole is not None:
                return roomy, whole
        while True:
            placed = place_week(task, kept)
            taken = self.beside(index, task, placed)
            if taken <= task.extra:
                return task, placed
            task = replace(task, extra=taken)

    def standing(self, index: int, sessions: Iterable[tuple[Place, dt.date]]) -> list[Standing]:
        """Return what the sessions of week ``index`` (from 0) hold beside the plan's work."""
        shared = self.calendar or self.season
        matches = [each.date for week in shared.weeks[index : index + 2] for each in week.fixtures]
        return standing_week(
            self.preparation,
            self.library.exercises,
            sessions,
            matches,
            self.season.weeks[index].phase,
            programme_week(self.season, index),
        )

    def task(self, plan: Plan, index: int) -> Task:
        """Return what of week ``index`` (from 0) of ``plan`` is to be put on days.

        As though nothing were done in it or asked of it.
        """
        week, days = self.season.weeks[index], self.days[index]
        practices = week_practices(week, days, self.practice.of(week.phase))
        pieces = {place: week_pieces(self.season, plan, index, place) for place in PLACES}
        planned: dict[Place, int] = {"field": plan.field[index], "gym": plan.gym[index]}
        # A plan typed by hand may have work and no session for it.
        counts = {place: max(planned[place], int(bool(pieces[place]))) for place in PLACES}
        if self.calendar is None:
            counts = {place: self._worth(pieces[place], count) for place, count in counts.items()}
        return Task(days, pieces, counts, practices, self.settings, self.limits)

    def _worth(self, pieces: Sequence[Piece], count: int) -> int:
        """Return no more sessions than there is work for: none is made for less than `LEAST`."""
        work = sum(piece.minutes(0, 1) for piece in pieces)
        needed = -(-len(pieces) // self.limits.pieces)
        return min(count, max(needed, work // LEAST, int(bool(pieces)), int(bool(count))))

    def _sessions(
        self, placed: Placed, task: Task, written: Sequence[SessionDayPart]
    ) -> dict[int, list[SessionPlan]]:
        """Return each day's sessions, field before gym; bounds of starts are as written."""
        bounds = {(each.place, each.date): (each.start_from, each.start_by) for each in written}
        found: dict[int, list[SessionPlan]] = defaultdict(list)
        for place, put in zip(PLACES, (placed.field, placed.gym), strict=True):
            for number, index in enumerate(put.days):
                day, held = task.days[index], put.spread.sessions[number]
                start = bounds.get((place, day.date)) or start_bounds(day, held, self.settings)
                made = _session(place, number, put, task.pieces[place], start)
                at = _clock(placed.clock.starts[place, index])
                found[index].append(made.model_copy(update={"start": at}))
        return found

    def _prepared(
        self, week: int, days: WeekOfDays, found: Mapping[int, list[SessionPlan]]
    ) -> dict[int, list[SessionPlan]]:
        """Return the sessions with their warm-up and their standing work."""
        order = [(at, each) for at in sorted(found) for each in found[at]]
        sessions = [(each.place, days[at].date) for at, each in order]
        made: dict[int, list[SessionPlan]] = defaultdict(list)
        for (at, each), held in zip(order, self.standing(week, sessions), strict=True):
            told = {
                "standing": held.kinds,
                "warm_up": held.warm_up,
                "finish": held.finish,
                "minutes": each.minutes + held.minutes,
            }
            made[at].append(each.model_copy(update=told))
        return made

    def _day(
        self,
        week: Week,
        day: Day,
        sessions: list[SessionPlan],
        placed: Placed,
        task: Task,
    ) -> DayPlan:
        match = self._match(week, day.fixture) if day.fixture else None
        practice = self._practice(week, day.index, placed, task.practised)
        loads = [session.load for session in sessions]
        loads += [part.load for part in (match, practice) if part]
        return DayPlan(
            date=day.date,
            weekday=f"{day.date:%A}".lower(),
            label=day.label,
            kind=day.kind,
            match=match,
            practice=practice,
            sessions=tuple(sessions),
            load=sum(loads),
        )

    def _match(self, week: Week, fixture: Fixture) -> MatchInfo:
        minutes = [match.minutes or self.season.match_minutes for match in week.fixtures]
        at = [match.date for match in week.fixtures].index(fixture.date)
        # Shares of the week's match load, rounded so that they add up to it.
        edges = [round(week.match_load * sum(minutes[:k]) / sum(minutes)) for k in (at, at + 1)]
        return MatchInfo(
            opponent=fixture.opponent,
            competition=fixture.competition,
            kickoff=f"{fixture.kickoff:%H:%M}" if fixture.kickoff else None,
            venue=fixture.venue,
            priority=fixture.priority,
            load=edges[1] - edges[0],
            share=self._share(week),
            listed=self._listed(week, fixture, edges[1] - edges[0]),
        )

    def _listed(self, week: Week, fixture: Fixture, load: int) -> tuple[MatchInfo, ...]:
        """Return each match of a day with several, the day's load shared out by minutes."""
        played = self.season.played_on(fixture.date)
        if len(played) < 2:
            return ()
        minutes = [match.minutes or self.season.match_minutes for match in played]
        ends = [round(load * sum(minutes[:k]) / sum(minutes)) for k in range(len(played) + 1)]
        return tuple(
            MatchInfo(
                opponent=match.opponent,
                competition=match.competition,
                kickoff=f"{match.kickoff:%H:%M}" if match.kickoff else None,
                venue=match.venue,
                priority=match.priority,
                load=end - start,
                share=self._share(week),
            )
            for match, (start, end) in zip(played, pairwise(ends), strict=True)
        )

    def _share(self, week: Week) -> float | None:
        """Return what the group plays of a week's matches; None for the season of all."""
        every = 0 if self.calendar is None else self.calendar.weeks[week.index].match_load
        return round(week.match_load / every, 2) if every else None

    def _practice(
        self, week: Week, day: int, placed: Placed, practices: Practices
    ) -> PracticeInfo | None:
        practised = sorted(placed.clock.practice)
        if day not in practised:
            return None
        usual = self.practice.of(week.phase)
        load = share(week.practice_load, practised.index(day), len(practised))
        return PracticeInfo(
            minutes=round(load / usual.rpe) if usual.rpe else None,
            load=load,
            start=_clock(placed.clock.practice[day]),
            given=day in practices.starts,
        )


def _session(
    place: Place,
    number: int,
    put: Put,
    pieces: Sequence[Piece],
    start: Bounds,
) -> SessionPlan:
    work = tuple(
        _work(piece, way.index(number), len(way))
        for piece, way in zip(pieces, put.spread.ways, strict=True)
        if number in way
    )
    held = put.spread.sessions[number]
    return SessionPlan(
        place=place,
        work=work,
        minutes=held.minutes,
        load=held.load,
        hard=held.hard,
        start_from=start[0],
        start_by=start[1],
    )


def start_bounds(day: Day, held: Held, settings: DaySettings) -> Bounds:
    """Return from when and by when a session may start, "HH:MM"; None where no match says so."""
    first, last = day.window if held.hard and day.window else (0, DAY)
    return (
        _clock(first if first > minutes_of(settings.opens) else None),
        _clock(last if last < minutes_of(settings.shuts) else None),
    )


def _work(piece: Piece, part: int, parts: int) -> PlannedWork:
    return PlannedWork(
        quality=piece.quality.key,
        name=piece.quality.name,
        code=piece.band.code,
        label=piece.band.label,
        dose=piece.dose.word,
        part=part + 1,
        parts=parts,
        minutes=piece.minutes(part, parts),
        load=piece.load(part, parts),
    )


def _clock(minutes: int | None) -> str | None:
    return None if minutes is None else f"{minutes // 60:02d}:{minutes % 60:02d}"


def _held(placed: Placed) -> dict[int, list[Held]]:
    found: dict[int, list[Held]] = defaultdict(list)
    for put in (placed.field, placed.gym):
        for day, held in zip(put.days, put.spread.sessions, strict=True):
            found[day].append(held)
    return found


def _beside(
    alone: Mapping[int, Sequence[SessionPlan]], prepared: Mapping[int, Sequence[SessionPlan]]
) -> int:
    """Return the most minutes that a session has beside the plan's own work."""
    return max(
        (
            whole.minutes - own.minutes
            for day, sessions in alone.items()
            for own, whole in zip(sessions, prepared[day], strict=True)
        ),
        default=0,
    )


def _faults(task: Task, placed: Placed) -> list[str]:
    return [
        *faults(task.days, _held(placed), task.settings),
        *clock_faults(task, placed),
    ]


def _notes(days: Sequence[DayPlan], task: Task) -> list[str]:
    """Return what a coach has to know about the hours of a day."""
    found, hours = [], task.settings.same_day_hours
    if any(len(day.sessions) > 1 for day in days):
        found.append(f"Field and gym on one day: field first, or at least {hours} h between them.")
    practised = [day for day in days if day.practice]
    if any(session.place == "gym" for day in practised for session in day.sessions):
        found.append(f"Gym on a day of team practice: at least {hours} h between them.")
    if any(session.place == "field" for day in practised for session in day.sessions):
        found.append(WITHIN if task.practices.within else BEFORE)
    return [*found, *_beside_matches(practised, task)]


def _beside_matches(practised: Sequence[DayPlan], task: Task) -> Iterator[str]:
    """Name practice that a match leaves no room for: the day after it, or too much the day before.

    Own work keeps off these days by rule; practice is the club's, and goes where days are left.
    """
    most = task.settings.load_before_1
    for day in practised:
        assert day.practice is not None
        told = f"{day.date:%A}: team practice of {day.practice.load} AU on the day"
        if day.kind is Kind.RECOVERY:
            yield f"{told} after a match: recovery is meant for it, leave it out or keep it light."
        elif day.label == "MD-1" and day.practice.load > most:
            yield f"{told} before a match: {most} AU are enough, make it shorter or easier."
