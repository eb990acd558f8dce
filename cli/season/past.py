"""An older plan put in force again: weeks that are over keep the plan they were lived by."""

import datetime as dt
from collections.abc import Sequence

from pydantic import ValidationError

from cli.season.plan_bytes import plan_bytes
from optimiser.domain.document import PlanDocument, WeekPart


def keep_past(before: bytes | None, after: bytes | None, today: dt.date) -> bytes | None:
    """Return the plan ``after`` with the weeks of ``before`` that are over by ``today``.

    What is not recorded went as planned, by the plan of that time: an undo or a restored version
    must not plan the past anew.
    """
    old, new = _document(before), _document(after)
    if old is None or new is None:
        return after
    over = sum(week.monday + dt.timedelta(days=7) <= today for week in old.weeks)
    if not over or not _alike(old, new):
        return after
    if all(_choices(a) == _choices(b) for a, b in zip(old.weeks[:over], new.weeks, strict=False)):
        return after
    weeks = (*old.weeks[:over], *_numbered(old.weeks[:over], new.weeks, over))
    return plan_bytes(new.model_copy(update={"weeks": weeks}))


def _document(data: bytes | None) -> PlanDocument | None:
    try:
        return None if data is None else PlanDocument.model_validate_json(data)
    except ValidationError:
        return None


def _alike(old: PlanDocument, new: PlanDocument) -> bool:
    """Tell whether two plans have the same weeks and qualities."""
    days = [week.monday for week in old.weeks] == [week.monday for week in new.weeks]
    return days and set(old.weeks[0].qualities) == set(new.weeks[0].qualities)


def _choices(week: WeekPart) -> tuple[object, ...]:
    cells = {key: (part.band, part.dose) for key, part in week.qualities.items()}
    return cells, week.sessions


def _numbered(past: Sequence[WeekPart], weeks: Sequence[WeekPart], over: int) -> list[WeekPart]:
    """Return the weeks to come, their blocks counted on from those that are over."""
    ahead = list(weeks[over:])
    first = next((week.block for week in ahead if week.block is not None), None)
    last = next((week.block for week in reversed(past) if week.block is not None), 0)
    if first is None or last is None:
        return ahead
    goes_on = _goes_on(past[-1], weeks[over - 1], ahead[0])
    more = last - first + (0 if goes_on else 1)
    return [
        week if week.block is None else week.model_copy(update={"block": week.block + more})
        for week in ahead
    ]


def _goes_on(past: WeekPart, before: WeekPart, here: WeekPart) -> bool:
    """Tell whether the block of the last week that is over goes on."""
    same = all(part.band == here.qualities[key].band for key, part in past.qualities.items())
    return past.block is not None and here.block == before.block and same
