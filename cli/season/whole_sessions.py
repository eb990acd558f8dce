"""Whole field and gym sessions, as athletes rate them, shared out over the work in them.

An athlete's minutes and rating are of all of a session. The plan's doses and AU are of its own
work: so much of a record as the session is of that, without warm-up and standing work, is kept for
each quality in it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from cli.days import week_maker, written_days
from cli.files.errors import InputError
from cli.files.scenario_file import Loaded
from cli.files.scenario_rules import read_rules
from cli.season.by_group import group_of
from cli.season.folder import folder_of
from cli.season.group_plans import groups_in_progress
from cli.season.progress import in_progress
from optimiser.days.week_plan import SessionPlan, WeekPlan
from optimiser.progress.done_session import PLACES, DoneSession

PART_OF = "part of a "


def shared_out(loaded: Loaded, made: Sequence[DoneSession], source: Path) -> list[DoneSession]:
    """Return records in which whole sessions are shared out over the work planned for them.

    Raises
    ------
    InputError
        If there is no plan in force, or none of such a session in that week.
    """
    whole = [each for each in made if each.what in PLACES]
    if not whole:
        return list(made)
    for each in whole:
        _check(each, source)
    plans = _Plans(loaded, source)
    found: list[DoneSession] = []
    for each in made:
        if each.what not in PLACES:
            found.append(each)
        else:
            found += _parts(each, _planned(plans.week(each), each, source))
    return found


class _Plans:
    """The plans in force: each group's own, where it has one, and else the squad's."""

    def __init__(self, loaded: Loaded, source: Path) -> None:
        self._loaded, self._source, self._rules = loaded, source, read_rules(loaded)
        self._squad = in_progress(loaded, self._rules)
        self._groups = groups_in_progress(loaded, self._rules)
        self._of = group_of(loaded) if self._groups else {}
        self._weeks: dict[tuple[str, int], WeekPlan] = {}

    def week(self, session: DoneSession) -> WeekPlan:
        """Return the week of a record on its days, as planned for who it is of."""
        name = session.who.casefold()
        group = name if name in self._groups else self._of.get(name, "")
        if group not in self._groups:
            # sessions are shared: without a plan of the squad that of the first group stands in
            group = "" if self._squad else next(iter(self._groups), "")
        index = (session.date - self._loaded.season.weeks[0].monday).days // 7
        if (group, index) not in self._weeks:
            self._weeks[group, index] = self._placed(group, index)
        return self._weeks[group, index]

    def _placed(self, group: str, index: int) -> WeekPlan:
        there = self._groups.get(group, self._squad)
        folder = folder_of(self._loaded.path)
        if there is None or folder is None:
            do = "make one with `plan`, or record each quality"
            raise InputError(self._source, "what", "must be in a plan in force", "no plan", do)
        path = folder.group_plan(group) if group else folder.plan
        season = there.as_planned
        maker = week_maker(replace(there.loaded, season=season, today=None), self._rules)
        return maker.week(there.planned, index, written_days(path, season)[index])


def _check(session: DoneSession, source: Path) -> None:
    if session.sets is not None or session.logged:
        must = "must be a quality where sets are counted"
        raise InputError(source, session.where or "what", must, session.what, "say which")


def _planned(week: WeekPlan, session: DoneSession, source: Path) -> list[SessionPlan]:
    """Return the session of that day, else that of the place which is nearest to it."""
    here = [(day.date, each) for day in week.days for each in day.sessions if each.work]
    here = [(day, each) for day, each in here if each.place == session.what]
    if not here:
        must = f"must be a session that week {week.week} of the plan has"
        do = "record what was done by quality"
        raise InputError(source, session.where or "what", must, session.what, do)
    nearest = min(abs((day - session.date).days) for day, _ in here)
    day = next(day for day, _ in here if abs((day - session.date).days) == nearest)
    return [each for there, each in here if there == day]


def _parts(session: DoneSession, planned: Sequence[SessionPlan]) -> Iterator[DoneSession]:
    """Yield a record for each quality of the work, the session's own part of it only."""
    whole = sum(each.minutes for each in planned)
    for key in dict.fromkeys(work.quality for each in planned for work in each.work):
        own = sum(work.minutes for each in planned for work in each.work if work.quality == key)
        told = {
            "what": key,
            "minutes": _share(session.minutes, own / whole),
            "load": _share(session.load, own / whole),
            "note": _note(session),
        }
        yield session.model_copy(update=told)


def _share(value: float | None, share: float) -> float | None:
    return None if value is None else round(value * share, 1)


def _note(session: DoneSession) -> str:
    amounts = (("min", session.minutes), ("AU", session.load), ("RPE", session.rpe))
    told = ", ".join(f"{value:g} {word}" for word, value in amounts if value is not None)
    return f"{PART_OF}{session.what} session{f', {told}' if told else ''}"
