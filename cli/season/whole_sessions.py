"""Whole field and gym sessions, as athletes rate them, shared out over the work in them.

An athlete's minutes and rating are of all of a session. The plan's doses and AU are of its own
work: so much of a record as the session is of that, without warm-up and standing work, is kept for
each quality in it.
"""

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from cli.days import week_maker, written_days
from cli.files.errors import InputError
from cli.files.scenario_file import Loaded
from cli.files.scenario_rules import read_rules
from cli.season.argument import in_force
from cli.season.progress import in_progress
from optimiser.days.week_plan import SessionPlan, WeekPlan
from optimiser.progress.session import PLACES, DoneSession

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
    weeks = _weeks(loaded, {_week(loaded, each) for each in whole}, source)
    found: list[DoneSession] = []
    for each in made:
        if each.what not in PLACES:
            found.append(each)
        else:
            found += _parts(each, _planned(weeks[_week(loaded, each)], each, source))
    return found


def _week(loaded: Loaded, session: DoneSession) -> int:
    return (session.date - loaded.season.weeks[0].monday).days // 7


def _weeks(loaded: Loaded, indices: Iterable[int], source: Path) -> dict[int, WeekPlan]:
    """Return weeks of the plan in force on their days."""
    rules = read_rules(loaded)
    path, there = in_force(loaded.path), in_progress(loaded, rules)
    if path is None or there is None:
        do = "make one with `plan`, or record each quality"
        raise InputError(source, "what", "must be in a plan in force", "no plan", do)
    maker, written = week_maker(loaded, rules), written_days(path, loaded.season)
    return {index: maker.week(there.planned, index, written[index]) for index in sorted(indices)}


def _check(session: DoneSession, source: Path) -> None:
    if session.sets is not None or session.logged:
        must = "must be a quality where sets are counted"
        raise InputError(source, session.where or "what", must, session.what, "say which")


def _planned(week: WeekPlan, session: DoneSession, source: Path) -> list[SessionPlan]:
    """Return the session of that day, else all of that place in its week."""
    here = [(day.date, each) for day in week.days for each in day.sessions if each.work]
    here = [(day, each) for day, each in here if each.place == session.what]
    same = [each for day, each in here if day == session.date]
    if not here:
        must = f"must be a session that week {week.week} of the plan has"
        do = "record what was done by quality"
        raise InputError(source, session.where or "what", must, session.what, do)
    return same or [each for _, each in here]


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
