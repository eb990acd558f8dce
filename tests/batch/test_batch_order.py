from batch_cases import NO_SESSIONS, small_case, small_season
from batch_solvers import repeat_start, where

from constraints.load import load_rules
from optimiser.batch.engine import Crew
from optimiser.batch.row import Result
from optimiser.batch.run import order_of, run_batch

LOOSE = {"load_ramp": {"percent": 40}}
LOOSER = {"load_ramp": {"percent": 60}, "revisit": {"use": False}}


def run(cases, **more):
    return list(run_batch(cases, Crew(2), load_rules, **more))


def test_tighter_sets_come_first_and_hand_their_plan_on():
    tight, loose, looser = (
        small_case(tables=tables, rules=name)
        for name, tables in (("tight", {}), ("loose", LOOSE), ("looser", LOOSER))
    )

    order = order_of([looser, tight, loose])

    assert [list(wave) for wave in order.waves] == [[tight.key], [loose.key], [looser.key]]
    assert order.parent == {loose.key: tight.key, looser.key: loose.key}


def test_seasons_do_not_wait_for_each_other():
    cases = [small_case(f"s{at}", season=small_season(f"s{at}", low=at)) for at in (2, 3, 4)]

    order = order_of(cases)

    assert [len(wave) for wave in order.waves] == [3]
    assert not order.parent


def test_a_looser_set_starts_from_the_plan_of_the_tighter():
    tight = small_case(rules="tight")
    loose = small_case(tables=LOOSE, rules="loose")

    rows = {row.rules: row for row in run([loose, tight], solver=repeat_start)}

    assert rows["loose"].plan == rows["tight"].plan
    assert (rows["loose"].seconds, rows["tight"].seconds != 60.0) == (60.0, True)


def test_a_clash_hands_nothing_on():
    rows = run([small_case(tables=NO_SESSIONS), small_case(rules="loose")], solver=repeat_start)

    found = {row.rules: row.status for row in rows}
    assert found.keys() == {"as written", "loose"}
    assert found["as written"] == "clash"
    assert found["loose"] in {"proven", "within_gap"}


def test_equal_seasons_are_solved_once_and_both_have_a_row():
    first, second = small_case("First"), small_case("Second", season=small_season("Second"))

    rows = run([first, second], solver=where)

    assert [row.season for row in rows] == ["First", "Second"]
    assert len({row.why_not for row in rows}) == 1
    assert len({row.key for row in rows}) == 1


def test_what_is_known_is_not_solved_again():
    case = small_case()
    known = {case.key: Result(status="clash", why_not="before")}

    (row,) = run([case], known=known)

    assert (row.status, row.why_not) == ("clash", "before")


def test_what_only_went_wrong_is_tried_again():
    case = small_case()

    (row,) = run([case], known={case.key: Result(status="killed")})

    assert row.status in {"proven", "within_gap"}
