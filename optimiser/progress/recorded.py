"""What was recorded, as one record a day and a thing for the squad, or for one athlete."""

import datetime as dt
from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from statistics import median

from optimiser.progress.done_session import MATCH, SQUAD, DoneSession

Key = tuple[dt.date, str]


#: Share of a squad that has to be on record before its records are the squad's.
ENOUGH = 0.25


def squad_records(sessions: Iterable[DoneSession], athletes: int = 0) -> list[DoneSession]:
    """Return what the squad did: its own records, else the middle of its athletes' records.

    All are engineering choices, no source: the median, as one athlete who was held back or who
    rated a session oddly does not move the squad; more than half of the athletes who have any
    records, and more than a quarter of the squad, as extra work of a few is theirs alone.

    Parameters
    ----------
    athletes
        How many the squad has; 0 if nobody says.
    """
    sessions = whole_sessions(sessions)
    half = max(len(names(sessions)) / 2, ENOUGH * athletes)
    own: dict[Key, list[DoneSession]] = defaultdict(list)
    others: dict[Key, list[DoneSession]] = defaultdict(list)
    for each in sessions:
        (own if each.of_squad else others)[each.date, each.what].append(each)
    found = [each for records in own.values() for each in records]
    found += [
        _middle(records)
        for key, records in others.items()
        if key not in own and len(names(records)) > half
    ]
    return sorted(found, key=lambda each: (each.date, each.what))


def athlete_records(
    sessions: Sequence[DoneSession], name: str, athletes: int = 0
) -> list[DoneSession]:
    """Return what one athlete did: own records, else those of the squad of so many."""
    mine = [each for each in whole_sessions(sessions) if each.who.casefold() == name.casefold()]
    covered = {(each.date, each.what) for each in mine}
    squad = squad_records(sessions, athletes)
    rest = [each for each in squad if (each.date, each.what) not in covered]
    return sorted([*mine, *rest], key=lambda each: (each.date, each.what))


def group_records(
    sessions: Iterable[DoneSession], group: str, athletes: Collection[str], match_share: float
) -> list[DoneSession]:
    """Return what one group of the squad did, as records of a squad of its own.

    Its own records count (``who`` names the group), else the middle of its athletes' records, if
    more than half of those who have any are on it, else what the squad did. A match that is
    recorded for the squad is the group's by its share of the minutes.

    Parameters
    ----------
    athletes
        Names of the group's athletes.
    match_share
        0 to 1.
    """
    whole = whole_sessions(sessions)
    ours = {name.casefold() for name in athletes}
    mine = [each for each in whole if each.who.casefold() in ours]
    own = [each for each in whole if each.who.casefold() == group != SQUAD]
    own = [each.model_copy(update={"who": SQUAD}) for each in own]
    middle = [_played(each, match_share) for each in squad_records([*own, *mine], len(athletes))]
    covered = {(each.date, each.what) for each in middle}
    rest = [each for each in whole if each.of_squad and (each.date, each.what) not in covered]
    return [*middle, *(_shared(each, match_share) for each in rest)]


def member_records(
    sessions: Sequence[DoneSession],
    name: str,
    group: str,
    athletes: Collection[str],
    match_share: float,
) -> list[DoneSession]:
    """Return what one athlete of a group did, as records of a squad of one.

    Own records count, else those of the group (`group_records`).

    Parameters
    ----------
    athletes
        Names of the group's athletes.
    match_share
        Of the group, 0 to 1.
    """
    mine = [each for each in whole_sessions(sessions) if each.who.casefold() == name.casefold()]
    covered = {(each.date, each.what) for each in mine}
    rest = group_records(sessions, group, athletes, match_share)
    own = [_played(each.model_copy(update={"who": SQUAD}), match_share) for each in mine]
    return [*own, *(each for each in rest if (each.date, each.what) not in covered)]


def _played(each: DoneSession, share: float) -> DoneSession:
    """Return a group's match by the minutes of the whole match its share stands for."""
    if each.what != MATCH or not share or each.minutes is None:
        return each
    return each.model_copy(update={"minutes": min(240.0, each.minutes / share), "load": each.au})


def _shared(each: DoneSession, share: float) -> DoneSession:
    """Return a match of the squad with a group's share of its load."""
    if each.what != MATCH or each.au is None:
        return each
    return each.model_copy(update={"load": share * each.au})


def whole_sessions(sessions: Iterable[DoneSession]) -> list[DoneSession]:
    """Return records of whole sessions: sets logged lift by lift are one record of their number.

    Where the day has a record of the session itself they are its details and count no more.
    """
    whole: list[DoneSession] = []
    logged: dict[tuple[str, Key], list[DoneSession]] = defaultdict(list)
    for each in sessions:
        if each.logged:
            logged[each.who.casefold(), (each.date, each.what)].append(each)
        else:
            whole.append(each)
    there = {(each.who.casefold(), (each.date, each.what)) for each in whole}
    return [*whole, *(_counted(sets) for key, sets in logged.items() if key not in there)]


def _counted(logged: Sequence[DoneSession]) -> DoneSession:
    plain = {"exercise": None, "kg": None, "reps": None, "left": None}
    sets = sum(1 if each.sets is None else each.sets for each in logged)
    return logged[0].model_copy(update={**plain, "sets": sets})


def names(sessions: Iterable[DoneSession]) -> list[str]:
    """Return the athletes who have records of their own, in order."""
    return sorted({each.who for each in sessions if not each.of_squad}, key=str.casefold)


def _middle(records: Sequence[DoneSession]) -> DoneSession:
    """Return the middle record of several athletes on one day."""
    loads = [each.au for each in records if each.au is not None]
    return records[0].model_copy(
        update={
            "who": SQUAD,
            "minutes": _median([each.minutes for each in records]),
            "rpe": _median([each.rpe for each in records]),
            "load": median(loads) if loads else None,
        }
    )


def _median(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return median(known) if known else None
