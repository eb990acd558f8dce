"""Which days a league's rounds and its cup are played on."""

from dataclasses import dataclass

from optimiser.domain.setup_error import SetupError
from optimiser.league.settings import Closeness
from optimiser.league.year import Year

SATURDAY, WEDNESDAY = 5, 2
FINAL_CLEAR_WEEKS = 9
MIDWEEK_SHARE = 3
RUN_WEEKS = 3

Slot = tuple[int, int]
"""A week and a weekday."""


@dataclass(frozen=True)
class Slots:
    """Slots in order, one a round."""

    league: list[Slot]
    cup: list[Slot]


def place_rounds(
    year: Year, rounds: int, cup: int, congestion: Closeness, early_final: bool
) -> Slots:
    """Return when ``rounds`` of the league and ``cup`` rounds are played.

    The league's last round is on the last weekend but one, the cup final on the last; an
    early final comes at least nine weeks before, if there is room. Cup and league never
    share a day.

    Raises
    ------
    SetupError
        If the weeks are too few at this congestion.
    """
    weeks = year.played()
    final = _final_week(weeks, early_final)
    weekends = [week for week in weeks if week != final and week != weeks[-1]]
    cup_weeks = _spread([week for week in weekends if week < final - 1], cup - 1)
    if congestion is Closeness.NONE:
        _check(year, rounds + len(cup_weeks), len(weekends), congestion)
        weekends = [week for week in weekends if week not in cup_weeks]
        midweeks: list[int] = []
    else:
        open_weeks = [week for week in weekends[1:-2] if week not in {*cup_weeks, final - 1}]
        wanted = rounds // MIDWEEK_SHARE if congestion is Closeness.HEAVY else 0
        wanted = max(wanted, rounds - len(weekends))
        _check(year, rounds, len(weekends) + len(open_weeks), congestion)
        midweeks = _in_runs(open_weeks, min(wanted, len(open_weeks)))
    saturdays = _spread(weekends, rounds - len(midweeks))
    league = [(week, SATURDAY) for week in saturdays] + [(week, WEDNESDAY) for week in midweeks]
    cup_day = SATURDAY if congestion is Closeness.NONE else WEDNESDAY
    return Slots(sorted(league), [*((week, cup_day) for week in cup_weeks), (final, SATURDAY)])


def _final_week(weeks: list[int], early: bool) -> int:
    last_round = weeks[-2]
    room = [week for week in weeks if week <= last_round - FINAL_CLEAR_WEEKS]
    return room[-1] if early and len(room) >= len(weeks) // 2 else weeks[-1]


def _check(year: Year, needed: int, there: int, congestion: Closeness) -> None:
    if needed > there:
        raise SetupError(
            "weeks",
            f"must leave room for {needed} rounds at congestion {congestion}",
            f"{year.weeks} weeks with {there} days to play on",
            f"make it longer by {needed - there} or more, take fewer clubs or more congestion",
        )


def _spread(weeks: list[int], count: int) -> list[int]:
    """Return ``count`` of ``weeks``, evenly, the last always among them."""
    step = len(weeks) / count if count else 0
    return [weeks[round((number + 1) * step) - 1] for number in range(min(count, len(weeks)))]


def _in_runs(weeks: list[int], count: int) -> list[int]:
    """Return ``count`` of ``weeks`` in runs of three neighbours, the runs far apart."""
    runs = [weeks[at : at + RUN_WEEKS] for at in range(0, len(weeks), RUN_WEEKS)]
    chosen = _spread(list(range(len(runs))), -(-count // RUN_WEEKS))
    first = [week for run in chosen for week in runs[run]]
    others = [week for week in weeks if week not in first]
    return sorted((first + others)[:count])
