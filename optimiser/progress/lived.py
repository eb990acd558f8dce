"""A season as it was lived up to today: what was done stands where it was planned."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import OutsideLoad, Season, Surplus, Week
from optimiser.domain.week_number import number_of
from optimiser.progress.amount import Amount, amount_done
from optimiser.progress.done_session import MATCH, PRACTICE, DoneSession
from optimiser.progress.recorded import squad_records
from optimiser.progress.sessions_needed import sessions_needed

#: Working sets of a full dose by quality and rung; what is not in it counts for `USUAL_SETS`.
FullSets = Mapping[tuple[int, int], int]
USUAL_SETS = 12
Cell = tuple[int, int]


@dataclass(frozen=True)
class Lived:
    """A season and its plan with the past as it was.

    Parameters
    ----------
    season
        With the real loads, match minutes and amounts of the weeks that are decided.
    plan
        With what was done in those weeks.
    weeks
        How many are decided: those that are over, and the one under way once anything of it is
        recorded.
    recorded
        Weeks (from 0) of which anything is recorded; the others of the past are taken as planned.
    """

    season: Season
    plan: Plan
    weeks: int
    recorded: frozenset[int] = frozenset()


def weeks_decided(season: Season, today: dt.date, sessions: Sequence[DoneSession] = ()) -> int:
    """Return how many weeks no plan may change any more.

    A week counts once its Sunday is over, or from its first record on.
    """
    over = (today - season.weeks[0].monday).days // 7
    started = [_week_of(season, each.date) for each in sessions if each.date <= today]
    decided = max([over, *map(number_of, started)])
    return max(0, min(decided, len(season.weeks)))


def live(
    season: Season,
    plan: Plan,
    sessions: Sequence[DoneSession],
    today: dt.date,
    full_sets: FullSets | None = None,
    decided: int | None = None,
    athletes: int = 0,
) -> Lived:
    """Return a season and its plan with what was done in it up to today.

    What is not recorded went as planned: a quality in a week, practice in a week, a match.

    Parameters
    ----------
    decided
        Weeks that are decided, where more than these sessions tells; else `weeks_decided`.
    athletes
        How many the squad has: what a few of them did is not the squad's (`squad_records`).
    """
    weeks = weeks_decided(season, today, sessions) if decided is None else decided
    if not weeks:
        return Lived(season, plan, 0)
    squad = squad_records(sessions, athletes)
    cells = _amounts(season, plan, squad, full_sets or {})
    past = _past(season, plan, cells, weeks)
    under_way = weeks if today < _after(season, weeks) else -1
    there = _season(season, past, cells, squad, under_way)
    recorded = frozenset(_week_of(season, each.date) for each in sessions)
    return Lived(there, past, weeks, recorded)


def _after(season: Season, weeks: int) -> dt.date:
    """Return the Monday after so many weeks."""
    return season.weeks[0].monday + dt.timedelta(weeks=weeks)


def _week_of(season: Season, day: dt.date) -> int:
    return (day - season.weeks[0].monday).days // 7


def _amounts(
    season: Season, plan: Plan, squad: Sequence[DoneSession], full_sets: FullSets
) -> dict[Cell, Amount]:
    """Return what was done, by quality and week, where anything of it is recorded."""
    by_cell: dict[Cell, list[DoneSession]] = defaultdict(list)
    keys = {key: index for index, key in enumerate(season.keys)}
    for each in squad:
        if each.what in keys:
            by_cell[keys[each.what], _week_of(season, each.date)].append(each)
    return {
        (quality, week): amount_done(
            season.qualities[quality],
            plan.rungs[quality][week] or 0,
            records,
            full_sets.get((quality, plan.rungs[quality][week] or 0), USUAL_SETS),
        )
        for (quality, week), records in by_cell.items()
    }


# --- the plan -------------------------------------------------------------------------------


def _past(season: Season, plan: Plan, cells: Mapping[Cell, Amount], weeks: int) -> Plan:
    rungs = [list(row) for row in plan.rungs]
    doses = [list(row) for row in plan.doses]
    for (quality, week), amount in cells.items():
        if season.weeks[week].closed:
            continue  # the plan has no place for it; its amount counts all the same
        doses[quality][week] = amount.dose
        codes = [band.code for band in season.qualities[quality].bands]
        if amount.band in codes:
            rungs[quality][week] = codes.index(amount.band)
    for each in season.weeks:
        fit_bands(rungs, doses, each)
    return plan.model_copy(
        update={
            "rungs": tuple(map(tuple, rungs)),
            "doses": tuple(map(tuple, doses)),
            "field": sessions_needed(season, plan.field, rungs, doses, "field", weeks),
            "gym": sessions_needed(season, plan.gym, rungs, doses, "gym", weeks),
        }
    )


def fit_bands(rungs: list[list[int | None]], doses: list[list[Dose]], week: Week) -> None:
    """Give every quality a band in an open week and none in a closed one: breaks may change."""
    at = week.index
    for row, done in zip(rungs, doses, strict=True):
        if week.closed:
            row[at], done[at] = None, Dose.NONE
        elif row[at] is None:
            before = next((rung for rung in reversed(row[:at]) if rung is not None), None)
            after = next((rung for rung in row[at:] if rung is not None), 0)
            row[at] = after if before is None else before


# --- the season -----------------------------------------------------------------------------


def _season(
    season: Season,
    past: Plan,
    cells: Mapping[Cell, Amount],
    squad: Sequence[DoneSession],
    under_way: int,
) -> Season:
    played = {each.date: each for each in squad if each.what == MATCH}
    weeks = tuple(
        _week(season, week, past, cells, squad, played, under_way) for week in season.weeks
    )
    return season.model_copy(
        update={
            "weeks": weeks,
            "surplus": tuple(_surpluses(season, past, cells)),
            "outside": tuple(_outside(season, squad)),
        }
    )


def _week(
    season: Season,
    week: Week,
    past: Plan,
    cells: Mapping[Cell, Amount],
    squad: Sequence[DoneSession],
    played: Mapping[dt.date, DoneSession],
    under_way: int,
) -> Week:
    here = [each for each in squad if _week_of(season, each.date) == week.index]
    if not here:
        return week
    practice = _practice(week, here, going_on=week.number == under_way)
    more = sum(
        amount.load
        - season.qualities[quality].load(past.doses[quality][at], past.rungs[quality][at])
        for (quality, at), amount in cells.items()
        if at == week.index
    )
    friendlies = _friendlies(week, played)
    return week.model_copy(
        update={
            "fixtures": tuple(_as_played(fixture, played) for fixture in week.fixtures),
            "practice_load": max(0, round(practice + more)),
            "match_load": _match_load(season, week, played) + round(friendlies),
        }
    )


def _practice(week: Week, here: Sequence[DoneSession], *, going_on: bool) -> float:
    """Return a week's practice as it was; while the week goes on, at least as planned."""
    records = [each.au for each in here if each.what == PRACTICE and each.au is not None]
    if not records:
        return week.practice_load
    return max(sum(records), week.practice_load if going_on else 0)


def _as_played(fixture: Fixture, played: Mapping[dt.date, DoneSession]) -> Fixture:
    record = played.get(fixture.date)
    if record is None or not record.minutes:
        return fixture
    return fixture.model_copy(update={"minutes": min(240.0, record.minutes)})


def _match_load(season: Season, week: Week, played: Mapping[dt.date, DoneSession]) -> int:
    """Return a week's match load: real where it is recorded, else its share of the planned."""
    planned = {each.date: each.minutes or season.match_minutes for each in week.fixtures}
    whole = sum(planned.values())
    total = 0.0
    for day, minutes in planned.items():
        record = played.get(day)
        usual = week.match_load * minutes / whole
        total += usual if record is None or record.au is None else record.au
    return round(total)


def _friendlies(week: Week, played: Mapping[dt.date, DoneSession]) -> float:
    """Return the load of matches that no fixture speaks of."""
    days = {fixture.date for fixture in week.fixtures}
    last = week.monday + dt.timedelta(days=6)
    others = [each for day, each in played.items() if week.monday <= day <= last]
    return sum(each.au or 0.0 for each in others if each.date not in days)


def _surpluses(season: Season, past: Plan, cells: Mapping[Cell, Amount]) -> list[Surplus]:
    """Return by how much what was done gave and took more, or less, than its dose does."""
    found = []
    for (index, week), amount in sorted(cells.items()):
        quality, dose = season.qualities[index], past.doses[index][week]
        rung = past.rungs[index][week]
        band = quality.bands[0 if rung is None else rung]
        spec = quality.spec(dose)
        usual = 0.0 if spec is None else spec.gain
        gain = band.gain * (amount.gain - usual)
        strain = band.strain * (amount.strain - quality.strain(dose))
        if abs(gain) > 1e-9 or abs(strain) > 1e-9:
            found.append(Surplus(week=week, quality=index, gain=gain, strain=strain))
    return found


def _outside(season: Season, squad: Sequence[DoneSession]) -> list[OutsideLoad]:
    """Return practice beyond the plan, and matches that no fixture speaks of, as shares of a match.

    That load costs readiness as much as a match of as many AU does: common practice, no source.
    Less practice than planned is no gain: a caution.
    """
    usual = _usual_match(season)
    days = {fixture.date for fixture in season.fixtures}
    found = [
        OutsideLoad(date=each.date, matches=each.au / usual)
        for each in squad
        if each.what == MATCH and each.au and each.date not in days
    ]
    for week in season.weeks:
        here = [e for e in squad if e.what == PRACTICE and _week_of(season, e.date) == week.index]
        loads = [(each.date, each.au) for each in here if each.au]
        total = sum(load for _, load in loads)
        over = total - week.practice_load
        if over > 0:
            found += [
                OutsideLoad(date=day, matches=over * load / total / usual) for day, load in loads
            ]
    return found


def _usual_match(season: Season) -> float:
    """Return the load of a whole match, in AU."""
    minutes = sum(fixture.minutes or season.match_minutes for fixture in season.fixtures)
    load = sum(week.match_load for week in season.weeks)
    return load * season.match_minutes / minutes if minutes and load else 8 * season.match_minutes
