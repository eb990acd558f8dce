"""A lighter week for tests comes up as often as asked; where the calendar leaves none it yields."""

import pytest
from made_seasons import make_season, match_on

from constraints.retesting import Retesting
from optimiser.domain.fixture import Priority
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose


def plan_of(season, *starts):
    """Return a plan that does nothing, with blocks that begin in these weeks."""
    weeks = len(season.weeks)
    idle = tuple(0 for _ in range(weeks))
    doses = tuple((Dose.NONE,) * weeks for _ in season.qualities)
    return Plan(
        starts=starts,
        rungs=tuple((0,) * weeks for _ in season.qualities),
        doses=doses,
        field=idle,
        gym=idle,
    )


def broken(rule, season, *starts):
    return [breach.week for breach in rule.audit(plan_of(season, *starts), season)]


def test_any_so_many_weeks_hold_the_first_week_of_a_block():
    season = make_season(20)

    assert broken(Retesting(weeks=6), season, 0, 6, 12, 18) == []
    assert broken(Retesting(weeks=6), season, 0, 6, 13) == [12, 19]
    assert broken(Retesting(weeks=6, lighter="last"), season, 0, 6, 13) == [11, 18]


def test_a_lighter_week_between_two_matches_close_together_is_none_for_tests():
    # Saturday, Wednesday and Saturday
    close = [match_on(5, day=5), match_on(6, day=2), match_on(6, day=5)]
    season = make_season(12, fixtures=close)

    assert broken(Retesting(weeks=6, run=2), season, 0, 6) == [6, 7, 8, 9, 10, 11]
    assert broken(Retesting(weeks=6, run=2, after=1, before=1), season, 0, 6) == []


def test_the_weeks_up_to_a_high_fixture_are_no_time_for_tests():
    season = make_season(14, fixtures=[match_on(7, priority=Priority.HIGH)])

    assert broken(Retesting(weeks=7, run=2), season, 0, 6) == [7, 8, 9, 10, 11, 12, 13]
    assert broken(Retesting(weeks=7, run=2, clear=1), season, 0, 6) == [13]


@pytest.mark.parametrize(("run", "found"), [(3, [7]), (4, [])])
def test_it_yields_where_too_few_weeks_in_a_row_leave_room(run, found):
    # two matches in a week leave no day; weeks 2 to 4 are free
    crowded = [match_on(week, day=day) for week in (0, 1, 5, 6, 7) for day in (1, 5)]
    season = make_season(8, fixtures=crowded)

    assert broken(Retesting(weeks=8, run=run), season, 0, 5) == found


def test_what_it_yields_to_is_told_and_a_looser_rule_allows_more():
    season = make_season(12, fixtures=[match_on(week, day=d) for week in range(12) for d in (1, 5)])
    rule = Retesting(weeks=6)

    assert broken(rule, season, 0, 6) == []
    assert broken(rule.unyielding(), season, 0, 6) == list(range(5, 12))
    assert rule.loosened().weeks == 10
