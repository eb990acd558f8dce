"""What the joint model of several groups promises has legal days for all of them."""

import datetime as dt
from random import Random

from day_seasons import at, season_of
from hypothesis import example, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st
from made_seasons import FIRST_MONDAY

from constraints.session_caps import SessionCaps
from constraints.spacing import Spacing
from optimiser.days.week import WeekMaker
from optimiser.domain.group import Group, GroupSettings
from optimiser.domain.practice import Practice, PracticeWeek
from optimiser.domain.quality import Dose
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.groups.days_together import shared_days
from optimiser.groups.joint import join
from optimiser.groups.member import members_of
from optimiser.groups.rooms import post_shared_rooms
from optimiser.joint_model.solve import make_board

WEEKS = 3
NONE = PracticeWeek(sessions=0)
CLOCKS = st.sampled_from([None, "12:30", "15:00", "19:45"])
MATCHES = st.dictionaries(st.integers(0, 7 * WEEKS - 1), CLOCKS, max_size=8)
RULES = st.builds(
    Spacing,
    hours_since=st.sampled_from([24, 48, 72]),
    hard_hours=st.sampled_from([24, 48, 72]),
    recovery_days=st.integers(0, 2),
    primer_days=st.integers(0, 2),
    doubles=st.integers(0, 2),
    rest_days=st.just(()),
)
EFFORT = Effort(deterministic=2.0)


def practised(season, usual):
    """Return a season whose team practises as usual on its open days."""
    loads = [usual.load(min(usual.sessions, week.open_days)) for week in season.weeks]
    weeks = [
        week.model_copy(update={"practice": usual, "practice_load": load})
        for week, load in zip(season.weeks, loads, strict=True)
    ]
    return season.model_copy(update={"weeks": tuple(weeks)})


def groups_back_in(week):
    """Three groups; the last one joins in a week (from 0)."""
    back = FIRST_MONDAY + dt.timedelta(days=7 * week)
    return {
        Group.STARTERS: GroupSettings(),
        Group.NON_PLAYING: GroupSettings(match_share=0),
        Group.RETURNING: GroupSettings(match_share=0, back=back),
    }


def solved(members, seed, *, shared_rooms=True):
    """Plans of the joint model that do as much as they can of what is liked by chance."""
    boards = [make_board(member.season, member.rules) for member in members]
    if shared_rooms:
        post_shared_rooms(boards, members)
    rng = Random(seed)
    for board in boards:
        for week in board.open_weeks():
            for quality in range(len(board.season.qualities)):
                for dose in (Dose.TOUCH, Dose.REDUCED, Dose.FULL):
                    (var,) = board.at_least(quality, week, dose)
                    board.model.cost[var] = -rng.randint(0, 9)
            for var in board.all_sessions(week):
                board.model.cost[var] = -rng.randint(0, 9)
    joint = join(boards, [1] * len(boards), [member.name for member in members])
    found = minimise(joint.model, EFFORT)
    return [board.read(joint.values(index, found.values)) for index, board in enumerate(boards)]


def placed(season, members, rule, plans, usual=NONE):
    team = Practice(off_season=usual, pre_season=usual, in_season=usual)
    makers = [WeekMaker(m.season, rule, practice=team, calendar=season) for m in members]
    written = shared_days(makers, plans)
    return written, [
        [maker.week(plan, week, days[week]) for week in range(len(season.weeks))]
        for maker, plan, days in zip(makers, plans, written, strict=True)
    ]


@hypothesis_settings(max_examples=8)
@given(
    rule=RULES,
    matches=MATCHES,
    back=st.integers(1, WEEKS - 1),
    seed=st.integers(0, 999),
    usual=st.integers(0, 3).map(lambda sessions: PracticeWeek(sessions=sessions)),
)
@example(  # two groups whose work would each leave practice another day
    rule=Spacing(hours_since=48, hard_hours=48, recovery_days=2, rest_days=(), doubles=1),
    matches=dict.fromkeys((1, 9, 18, 20), "19:45") | {4: "12:30"},
    back=1,
    seed=488,
    usual=PracticeWeek(),
)
def test_every_week_the_joint_model_finds_has_legal_days_for_every_group(
    rule, matches, back, seed, usual
):
    fixtures = [at(day // 7, day % 7, clock) for day, clock in sorted(matches.items())]
    season = practised(season_of(*fixtures, weeks=WEEKS), usual)
    rules = [rule, SessionCaps()]
    members = members_of(season, rules, groups_back_in(back))
    plans = solved(members, seed)

    written, made = placed(season, members, rule, plans, usual)

    for week in range(WEEKS):
        there = [index for index, m in enumerate(members) if m.absent <= week]
        assert [made[index][week].faults for index in there] == [()] * len(there)
        assert len({_slots(written[index][week]) for index in there}) == 1
        assert len({_practice(made[index][week]) for index in there}) == 1
    for member, plan in zip(members, plans, strict=True):
        assert rule.audit(plan, member.season) == []


def test_the_ceiling_of_a_day_near_a_match_is_held_for_groups_together():
    # Of Wednesday and Thursday, MD-2, the search over days alone takes the one with the lower
    # ceiling, on which two groups' work is too much.
    matches = {0: "12:30", 5: None, 7: "19:45", 12: "19:45"}
    season = season_of(*(at(d // 7, d % 7, clock) for d, clock in matches.items()), weeks=WEEKS)
    rule = Spacing(hours_since=24, hard_hours=72, recovery_days=0, primer_days=0, rest_days=())
    members = members_of(season, [rule, SessionCaps()], groups_back_in(2))

    plans = solved(members, 512)
    written, made = placed(season, members, rule, plans)

    assert [weeks[1].faults for weeks in made[:2]] == [(), ()]
    assert _slots(written[0][1]) == _slots(written[1][1])
    loads = [day.load for weeks in made[:2] for day in weeks[1].days if day.sessions]
    assert min(loads) > rule.load_before_2


def _slots(days):
    return tuple((part.place, part.date, part.start_from, part.start_by) for part in days)


def _practice(week):
    return tuple(day.date for day in week.days if day.practice)


def test_a_group_without_a_match_behind_it_may_do_no_more_than_fits_the_shared_days():
    # For those who played on Sunday there is no day but the eve of Thursday's match.
    season = season_of(at(0, 6), at(1, 3, "15:00"), at(1, 5), weeks=2)
    rule = Spacing(recovery_days=2)
    members = members_of(season, [rule, SessionCaps()], groups_back_in(1))

    apart = solved(members, 1, shared_rooms=False)
    together = solved(members, 1)

    assert any(week.faults for made in placed(season, members, rule, apart)[1] for week in made)
    assert not any(
        week.faults for made in placed(season, members, rule, together)[1] for week in made
    )
