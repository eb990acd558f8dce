"""The days of a season and what may be done on each of them."""

import datetime as dt
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from optimiser.days.labels import label
from optimiser.days.spacing_settings import DaySettings
from optimiser.domain.fixture import Fixture
from optimiser.domain.season import Season, Week

Window = tuple[int, int]
#: In minutes.
DAY = 1440


class Kind(StrEnum):
    """What a day is for."""

    MATCH = "match"
    CLOSED = "closed"
    TRAVEL = "travel"
    REST = "rest"
    RECOVERY = "recovery"
    PRIMER = "primer"
    OPEN = "open"


@dataclass(frozen=True, slots=True)
class Day:
    """One day.

    Parameters
    ----------
    index
        0 Monday to 6 Sunday.
    since, until
        Days from the last match and to the next one, 0 on a match day.
    window
        First and last start of hard leg work, in minutes from midnight; None if there is none.
    """

    date: dt.date
    index: int
    kind: Kind
    since: int | None = None
    until: int | None = None
    fixture: Fixture | None = None
    window: Window | None = None

    @property
    def label(self) -> str:
        """Return its name by the matches around it."""
        return label(self.since, self.until)

    @property
    def trainable(self) -> bool:
        """Return True if any session may stand on it."""
        return self.kind in (Kind.OPEN, Kind.PRIMER)

    @property
    def hard(self) -> bool:
        """Return True if hard leg work may be done on it."""
        return self.kind is Kind.OPEN and self.window is not None


WeekOfDays = tuple[Day, ...]


def season_days(season: Season, settings: DaySettings) -> list[WeekOfDays]:
    """Return the seven days of every week.

    Neighbouring weeks are kept from disturbing each other: the last days of a week rest if they
    lie too near to a day of the next one that can be trained on.
    """
    raw = [_week(season, week, settings) for week in season.weeks]
    following = [*raw[1:], ()]
    return [_bordered(days, after, settings) for days, after in zip(raw, following, strict=True)]


def _week(season: Season, week: Week, settings: DaySettings) -> WeekOfDays:
    fixtures = season.fixtures
    dates = [fixture.date for fixture in fixtures]
    return tuple(
        _day(week, week.monday + dt.timedelta(days=index), fixtures, dates, settings)
        for index in range(7)
    )


def _day(
    week: Week,
    date: dt.date,
    fixtures: Sequence[Fixture],
    dates: Sequence[dt.date],
    settings: DaySettings,
) -> Day:
    before, after = bisect_right(dates, date), bisect_left(dates, date)
    past, coming = fixtures[max(0, before - 2) : before], fixtures[after : after + 1]
    since = (date - past[-1].date).days if past else None
    until = (coming[0].date - date).days if coming else None
    return Day(
        date=date,
        index=date.weekday(),
        kind=_kind(
            week, date, (since, until), settings, travelled=_travels(until, coming, settings)
        ),
        since=since,
        until=until,
        fixture=past[-1] if since == 0 else None,
        window=_window(date, past, coming, settings),
    )


def _kind(
    week: Week,
    date: dt.date,
    near: tuple[int | None, int | None],
    settings: DaySettings,
    *,
    travelled: bool,
) -> Kind:
    since, until = near
    if since == 0:
        return Kind.MATCH
    if travelled:
        return Kind.TRAVEL
    resting = any(item.kind == "rest" and item.first <= date <= item.last for item in week.breaks)
    if week.closed or resting:
        return Kind.CLOSED
    if since is not None and since <= settings.recovery_days:
        return Kind.RECOVERY
    if date.weekday() in {day.number for day in settings.rest_days}:
        return Kind.REST
    if until is not None and until <= settings.primer_days:
        return Kind.PRIMER
    return Kind.OPEN


def _travels(until: int | None, coming: Sequence[Fixture], settings: DaySettings) -> bool:
    """Tell whether the day before a match far away is spent on the way."""
    return until == 1 and any(match.travel_hours >= settings.travel_day_hours for match in coming)


def _window(
    date: dt.date, past: Sequence[Fixture], coming: Sequence[Fixture], settings: DaySettings
) -> Window | None:
    """Return when hard leg work may start on ``date``.

    The last match but one counts too: the last one may have no kick-off to go by.
    """
    starts = [_soonest(date, match, settings) for match in past]
    ends = [_latest(date, match, settings) for match in coming]
    first = max([minutes_of(settings.opens), *starts])
    final = min([minutes_of(settings.shuts), *ends])
    return (first, final) if first <= final else None


def _soonest(date: dt.date, last: Fixture, settings: DaySettings) -> int:
    """Return the minute of ``date``, outside of it too, from which the legs are back."""
    gone, wanted = DAY * (date - last.date).days, 60 * settings.hours_since
    if last.kickoff is None:
        return 0 if gone >= wanted else 2 * DAY
    return minutes_of(last.kickoff) + settings.match_minutes + wanted - gone


def _latest(date: dt.date, coming: Fixture, settings: DaySettings) -> int:
    ahead, wanted = DAY * (coming.date - date).days, 60 * settings.hours_until
    if coming.kickoff is None:
        return 2 * DAY if ahead >= wanted else -1
    return minutes_of(coming.kickoff) + ahead - wanted


def minutes_of(time: dt.time) -> int:
    """Return the minutes from midnight to ``time``."""
    return 60 * time.hour + time.minute


def _bordered(days: WeekOfDays, following: WeekOfDays, settings: DaySettings) -> WeekOfDays:
    busy = [7 + day.index for day in following if day.trainable]
    return tuple(
        replace(day, kind=Kind.REST)
        if day.trainable and any(other - day.index < settings.apart for other in busy)
        else day
        for day in days
    )
