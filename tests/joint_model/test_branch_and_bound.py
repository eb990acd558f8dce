"""What a solver tells wrongly, or not at all, is not taken from it."""

from optimiser.board.model import Model
from optimiser.engine import branch_and_bound as engine
from optimiser.engine.branch_and_bound import SearchLimits, branch_and_bound
from optimiser.engine.highs import SilentHighs


class Forgetful(SilentHighs):
    """Loses two thousand of the cost whenever presolve is on."""

    def __init__(self, **options):
        super().__init__(**options)
        self.forgets = options.get("presolve") != "off"

    def passModel(self, program):  # noqa: N802, the solver's own name
        program.offset_ -= 2.0 * self.forgets
        return super().passModel(program)


def test_a_lost_cost_is_noticed_and_the_bound_is_that_without_presolve(knapsack, monkeypatch):
    honest = branch_and_bound(knapsack, SearchLimits(gap=0.0, seconds=20.0))
    monkeypatch.setattr(engine, "SilentHighs", Forgetful)

    found = branch_and_bound(knapsack, SearchLimits(gap=0.0, seconds=20.0))

    assert honest.status == found.status == "optimal"
    assert (found.objective, found.bound) == (honest.objective, honest.bound)


def test_a_model_of_continuous_variables_alone_is_proven_too():
    """The solver takes it for a linear model, and tells no bound of a tree."""
    model = Model(offset=700)
    cheap, dear = model.var(1, 3, "cheap"), model.var(1, 3000, "dear")
    model.cost = {cheap: -5, dear: 2}
    model.fine, model.implied = {dear}, {cheap}

    found = branch_and_bound(model, SearchLimits(gap=0.0), hint={cheap: 3, dear: 1})

    assert (found.status, found.values) == ("optimal", [3, 1])
    assert found.objective == found.bound == 700 - 15 + 2
