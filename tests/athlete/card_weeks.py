"""Weeks with one field and one gym session of everything, as the days of a plan would give them."""

import datetime as dt

from optimiser.athlete.card import CardPiece, ChosenBand, SessionDay, WeekInfo
from optimiser.athlete.library import default_library
from optimiser.athlete.standing import default_preparation
from optimiser.athlete.standing_week import standing_week
from optimiser.domain.season import Phase
from optimiser.setup.qualities import default_qualities

MONDAY = dt.date(2026, 9, 7)
QUALITIES = default_qualities()


def choices(rung, dose, qualities=QUALITIES):
    """Return the same rung and dose of every quality."""
    return [ChosenBand(quality=quality, rung=rung, dose=dose) for quality in qualities]


#: Place and day of each session, days from 0 for Monday.
TWO = (("field", 1), ("gym", 2))


def week(dose, phase="in-season", match=5, qualities=QUALITIES, programme=20, rung=0, places=TWO):
    """Return a week with its sessions, two unless told, the match so many days on."""
    dates = [(place, MONDAY + dt.timedelta(days=day)) for place, day in places]
    matches = [] if match is None else [MONDAY + dt.timedelta(days=match)]
    held = standing_week(
        default_preparation(), default_library().exercises, dates, matches, Phase(phase), programme
    )
    return WeekInfo(
        number=9,
        monday=MONDAY,
        phase=phase,
        field=sum(place == "field" for place, _ in places),
        gym=sum(place == "gym" for place, _ in places),
        fixtures=("Sat Kew",),
        sessions=tuple(_session(each, qualities, dose, rung) for each in held),
    )


def _session(held, qualities, dose, rung):
    pieces = tuple(
        CardPiece(quality=quality.name, minutes=quality.minutes(dose, rung))
        for quality in qualities
        if quality.place == held.place
    )
    return SessionDay(
        place=held.place,
        date=held.date,
        label="MD-4",
        pieces=pieces,
        work=tuple(piece.words for piece in pieces),
        standing=tuple(held.parts),
        warm_up=held.warm_up,
        finish=held.finish,
        minutes=held.minutes + sum(piece.minutes for piece in pieces),
    )
