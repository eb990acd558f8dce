"""The days of a week's sessions, as a card shows them."""

from optimiser.athlete.card import SessionDay, WeekInfo
from optimiser.athlete.squad import Athlete
from optimiser.days.week_plan import WeekPlan, Work


def with_days(info: WeekInfo, week: WeekPlan) -> WeekInfo:
    """Return what a card says about a week with the days of its sessions."""
    sessions = tuple(
        SessionDay(
            place=session.place,
            date=day.date,
            label=day.label,
            work=tuple(map(_words, session.work)),
            minutes=session.minutes,
            start_from=session.start_from,
            start_by=session.start_by,
        )
        for day in week.days
        for session in day.sessions
    )
    return info.model_copy(update={"sessions": sessions})


def for_athlete(info: WeekInfo, athlete: Athlete) -> WeekInfo:
    """Return it with the sessions marked that the athlete is away for."""
    sessions = tuple(
        found.model_copy(update={"away": athlete.away(found.date, found.date)})
        for found in info.sessions
    )
    return info.model_copy(update={"sessions": sessions})


def _words(work: Work) -> str:
    return f"{work.name} ({work.part} of {work.parts})" if work.parts > 1 else work.name
