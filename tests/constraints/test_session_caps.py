from made_seasons import assert_agrees, audit_excess, make_plan, make_quality, make_season

from constraints.session_caps import PhaseCaps, SessionCaps
from optimiser.domain.season import Phase
from optimiser.rule import Waiver

CAPS = SessionCaps(
    off_season=PhaseCaps(field=1, gym=1),
    pre_season=PhaseCaps(field=2, gym=1),
    in_season=PhaseCaps(field=1, gym=0),
    field_minutes=40,
    gym_minutes=60,
    pieces=2,
)
FIELD = [make_quality(key, "field", minutes=(10, 20, 30)) for key in ("sprint", "agility", "jumps")]
GYM = make_quality("power", "gym", minutes=(10, 20, 30))
PHASES = (Phase.OFF, Phase.PRE, Phase.IN)


def _plan(season, doses, field):
    rungs = [[0]] * len(season.qualities)
    return make_plan(season, [0], rungs, doses).model_copy(update={"field": tuple(field)})


def test_reports_sessions_above_the_cap_of_the_phase():
    season = make_season(3, phases=PHASES)
    plan = _plan(season, [[2, 2, 2], [0, 1, 1]], [2, 2, 2])

    assert audit_excess(CAPS, plan, season) == {
        (0, None, "field", "sessions"): 1,
        (2, None, "field", "sessions"): 1,
        (2, None, "gym", "sessions"): 1,
    }
    assert_agrees(CAPS, plan, season)


def test_reports_minutes_and_pieces_that_do_not_fit():
    season = make_season(3, qualities=FIELD, phases=(Phase.PRE,) * 3)
    plan = _plan(season, [[3, 3, 1], [2, 2, 1], [0, 2, 1]], [1, 2, 1])

    assert [(b.week, b.part, b.excess) for b in CAPS.audit(plan, season)] == [
        (0, "field_minutes", 10),
        (2, "field_pieces", 1),
    ]
    assert_agrees(CAPS, plan, season)


def test_gym_minutes_have_their_own_cap():
    season = make_season(1, phases=(Phase.OFF,))
    rule = CAPS.model_copy(update={"gym_minutes": 25, "field_minutes": 5})
    plan = _plan(season, [[1], [3]], [1])

    assert [(b.part, b.excess) for b in rule.audit(plan, season)] == [
        ("field_minutes", 5),
        ("gym_minutes", 5),
    ]
    assert_agrees(rule, plan, season)


def test_closed_weeks_and_weeks_at_the_caps_are_clean():
    season = make_season(3, closed=(0, 2), phases=(Phase.PRE,) * 3, qualities=[*FIELD, GYM])
    plan = make_plan(season, [1], [[0]] * 4, [[3, 3, 3], [3, 1, 3], [0, 0, 0], [3, 3, 3]])

    assert CAPS.audit(plan, season) == []
    assert_agrees(CAPS, plan, season)


def test_each_part_is_waived_by_itself():
    season = make_season(1, qualities=FIELD, phases=(Phase.IN,))
    waive = (Waiver(week=1, part="field"), Waiver(part="field_minutes", by=7))
    rule = CAPS.model_copy(update={"waive": waive, "field_minutes": 15, "pieces": 1})
    plan = _plan(season, [[3], [1], [1]], [2])

    assert [(b.part, b.excess) for b in rule.audit(plan, season)] == [
        ("field_minutes", 13),
        ("field_pieces", 1),
    ]
    assert_agrees(rule, plan, season)
