from rows import pin_blocks

from optimiser.change.apply import apply_edits
from optimiser.change.cells import (
    CellChange,
    change_flags,
    changed_cells,
    forced_changes,
    session_moves,
)
from optimiser.domain.edits import Close
from optimiser.domain.quality import Dose
from optimiser.engine.cp_sat_search import Effort, minimise
from optimiser.joint_model.solve import make_board

EFFORT = Effort(deterministic=5.0)


def with_cell(plan, quality, week, rung=None, dose=None):
    rungs = [list(row) for row in plan.rungs]
    doses = [list(row) for row in plan.doses]
    if rung is not None:
        rungs[quality][week] = rung
    if dose is not None:
        doses[quality][week] = dose
    return plan.model_copy(
        update={"rungs": tuple(map(tuple, rungs)), "doses": tuple(map(tuple, doses))}
    )


def test_a_dose_or_a_band_makes_a_changed_cell(season, plain_plan):
    old = plain_plan(season)
    new = with_cell(with_cell(old, 1, 3, dose=Dose.FULL), 2, 5, rung=1)

    found = changed_cells(old, new)

    assert found == [
        CellChange(3, 1, 0, 0, Dose.TOUCH, Dose.FULL),
        CellChange(5, 2, 0, 1, Dose.TOUCH, Dose.TOUCH),
    ]


def test_the_band_of_what_is_not_done_does_not_count(season, plain_plan):
    old = with_cell(plain_plan(season), 0, 4, dose=Dose.NONE)

    assert changed_cells(old, with_cell(old, 0, 4, rung=2)) == []


def test_weeks_before_the_first_do_not_count(season, plain_plan):
    old = plain_plan(season)

    assert changed_cells(old, with_cell(old, 0, 4, dose=Dose.FULL), first=5) == []


def test_the_solver_counts_changed_cells_as_the_plan_does(season, rules, plan, plain_plan):
    old = plain_plan(season, rung=2, dose=Dose.REDUCED)
    board = make_board(season, rules)
    pin_blocks(board, plan)
    board.pin_doses(plan)
    flags = change_flags(board, old, range(4, 14))
    moves = session_moves(board, old, range(4, 14))
    board.model.cost = dict.fromkeys(flags.values(), 100) | dict.fromkeys(moves, 1)

    found = minimise(board.model, EFFORT)

    moved = sum(abs(plan.field[w] - 1) + abs(plan.gym[w] - 1) for w in range(4, 14))
    assert found.objective == 100 * len(changed_cells(old, plan, 4)) + moved


def test_cells_of_a_closed_week_change_whatever_is_chosen(minimal, rules, plan):
    day = minimal.season.weeks[5].monday
    closed = apply_edits(
        minimal.scenario, minimal.season, [Close(first=day, last=minimal.season.weeks[6].monday)]
    ).season
    board = make_board(closed, rules)

    found = forced_changes(board, plan)

    assert found == sum(row[5] is not Dose.NONE for row in plan.doses) > 0
