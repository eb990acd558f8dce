"""What was done on days of a season, in as few words as a test needs."""

import datetime as dt

from optimiser.progress.done_session import DoneSession
from optimiser.progress.lived import live


def record(season, week, what, **given):
    """Return a record of the Tuesday of a week (from 0)."""
    day = season.weeks[week].monday + dt.timedelta(days=1)
    return DoneSession(date=day, what=what, **given)


def lived_after(season, plan, weeks, sessions=()):
    """Return the season on the Monday after so many weeks."""
    return live(season, plan, sessions, season.weeks[0].monday + dt.timedelta(weeks=weeks))
