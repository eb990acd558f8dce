import pytest
from rows import holds

from optimiser.domain.rates import Rates
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.groups.joint import join
from optimiser.joint_model.solve import make_board
from optimiser.joint_model.start import price_bands

EFFORT = Effort(deterministic=5.0)


def boards_of(members):
    return [make_board(member.season, member.rules) for member in members]


def joined(members):
    boards = boards_of(members)
    price_bands(boards[0], Rates())
    return boards, join(boards, [1] * len(boards), [m.name for m in members])


@pytest.mark.parametrize("which", ["two", "three"])
def test_a_joint_solution_keeps_every_row_and_bound_of_every_board(which, request):
    members, _ = request.getfixturevalue(which)
    boards, joint = joined(members)

    found = minimise(joint.model, EFFORT)

    assert found.status == "optimal"
    for index, board in enumerate(boards):
        values = joint.values(index, found.values)
        assert all(holds(row, values) for row in board.model.rows)
        bounds = zip(board.model.lower, values, board.model.upper, strict=True)
        assert all(low <= value <= high for low, value, high in bounds)


def test_one_board_is_joined_to_itself(two):
    (board, *_), _ = joined(two[0][:1])

    joint = join([board], [1], ["starters"])

    assert joint.model.cost == board.model.cost
    assert joint.model.names == board.model.names
    assert joint.values(0, range(len(board.model.names))) == list(range(len(board.model.names)))


def test_what_is_shared_is_there_once(two):
    boards, joint = joined(two[0])

    per_week = {
        len(joint.places(0, b.week_choices(0)) + joint.places(1, b.week_choices(0)))
        for b in boards[:1]
    }
    shared = set(joint.places(0, boards[0].week_choices(0)))
    shared &= set(joint.places(1, boards[1].week_choices(0)))

    assert per_week == {40}
    assert {joint.model.names[var] for var in shared} == {"field[0]", "gym[0]"}


def test_weights_scale_costs_and_prices(short, rules):
    priced = [r.model_copy(update={"price": 7}) if r.name == "exposure" else r for r in rules]
    boards = [make_board(short.season, priced) for _ in range(2)]
    boards[1].model.cost = {boards[1].one: 5}

    joint = join(boards, [1, 3], ["a", "b"])

    assert joint.model.cost == {boards[0].one: 15}
    prices = {row.tag.price for row in joint.model.rows if row.tag and row.tag.rule == "exposure"}
    assert prices == {7, 21}
