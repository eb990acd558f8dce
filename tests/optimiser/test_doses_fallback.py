"""When the dose search finds nothing in time, the doses of stage 1 stand in and are improved."""

from optimiser.solve import Settings, solve_season


def test_a_search_without_time_still_gives_a_legal_plan(minimal, usual_rules):
    hurried = Settings(dose_effort=0.002, polish_effort=0.3)

    outcome = solve_season(minimal.season, usual_rules, hurried)

    assert outcome.plan is not None
    doses = outcome.stages[1]
    assert doses.status != "proven" or doses.objective <= doses.bound
    assert not any(rule.audit(outcome.plan, minimal.season) for rule in usual_rules)


def test_polish_makes_a_hurried_plan_better(minimal, usual_rules):
    def cost(polish):
        settings = Settings(dose_effort=0.002, polish_effort=polish)
        return solve_season(minimal.season, usual_rules, settings).stages[1].objective

    assert cost(1.0) < cost(0.0)
