"""The days of a week's sessions, as a card shows them."""

from optimiser.athlete.availability import AthleteHistory
from optimiser.athlete.card import CardPiece, SessionDay, WeekInfo
from optimiser.athlete.squad import Athlete
from optimiser.athlete.standing_week import Standing
from optimiser.days.week import WeekMaker
from optimiser.days.week_plan import DayPlan, PlannedWork, SessionPlan, WeekPlan
from optimiser.domain.week_number import index_of


def with_days(info: WeekInfo, week: WeekPlan, maker: WeekMaker | None = None) -> WeekInfo:
    """Return what a card says about a week with the days of its sessions.

    Parameters
    ----------
    maker
        What put the week on days, for the standing work; left out, there is none.
    """
    found = [(day, session) for day in week.days for session in day.sessions]
    places = [(session.place, day.date) for day, session in found]
    standing = maker.standing(index_of(week.week), places) if maker else [None] * len(found)
    sessions = tuple(
        _session(day, session, held) for (day, session), held in zip(found, standing, strict=True)
    )
    return info.model_copy(update={"sessions": sessions})


def _session(day: DayPlan, session: SessionPlan, held: Standing | None) -> SessionDay:
    return SessionDay(
        place=session.place,
        date=day.date,
        label=day.label,
        pieces=(pieces := tuple(map(_piece, session.work))),
        work=tuple(piece.words for piece in pieces),
        standing=tuple(held.parts) if held else (),
        warm_up=session.warm_up,
        finish=session.finish,
        minutes=session.minutes,
        start_from=session.start_from,
        start_by=session.start_by,
        start=session.start,
    )


def for_athlete(
    info: WeekInfo, athlete: Athlete, history: AthleteHistory | None = None
) -> WeekInfo:
    """Return it with the sessions marked that the athlete is away or not cleared for."""
    entered = history or AthleteHistory()
    sessions = tuple(
        found.model_copy(
            update={"away": athlete.away(found.date, found.date) or not entered.trains(found.date)}
        )
        for found in info.sessions
    )
    return info.model_copy(update={"sessions": sessions})


def _piece(work: PlannedWork) -> CardPiece:
    return CardPiece(quality=work.name, part=work.part, parts=work.parts, minutes=work.minutes)
