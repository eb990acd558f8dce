"""A plan for the worst tenth of settings: what it is worth, worked out another way."""

import json
from dataclasses import replace

import numpy as np
import pytest
from click.testing import CliRunner

from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import main
from cli.render.proof import LITTLE_WON, steady_lines
from optimiser.domain.document import SteadyMatch, SteadyPart
from optimiser.joint_model.effort import Settings
from optimiser.joint_model.solve import solve_season
from optimiser.joint_model.worst_tenth import steady_plan
from optimiser.response.drawn_settings import drawn_settings
from optimiser.review.audit import audit_plan
from optimiser.review.score import readiness

SHORT = """
name = "Brookmere Autumn"
first_monday = 2026-08-31
weeks = 9
fixtures = [ { date = 2026-10-10, opponent = "Tolland", priority = "high", target = 62 },
             { date = 2026-10-31, opponent = "Ashby Vale", priority = "high", target = 66 } ]
"""
GREAT = (5, 8)
DRAWN = 20


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    made = tmp_path_factory.mktemp("steady") / "short.toml"
    made.write_text(SHORT)
    return made


@pytest.fixture(scope="module")
def short(path):
    """A season, its rules, and the usual plan."""
    loaded = read_scenario(path)
    rules = read_rules(loaded)
    return loaded.season, rules, solve_season(loaded.season, rules).plan


@pytest.fixture(scope="module")
def steady(short):
    return steady_plan(*short, replace(Settings(), close=0.001), drawn=DRAWN)


def test_every_number_is_at_most_a_fifth_off_and_ladders_stay_ladders(short):
    season = short[0]
    drawn = drawn_settings(season, 30, seed=3)

    for made in drawn:
        for was, now in zip(season.qualities, made.qualities, strict=True):
            for name in ("tau_fitness", "tau_fatigue", "fatigue_ratio"):
                assert 0.8 <= getattr(now, name) / getattr(was, name) <= 1.2
            gains = [band.gain for band in now.bands]
            assert gains == sorted(gains)
    assert len({made.qualities[0].tau_fitness for made in drawn}) == 30
    assert drawn == drawn_settings(season, 30, seed=3)


def test_the_plan_keeps_the_rules_and_is_between_the_bound_and_the_usual_plan(short, steady):
    season, rules, _ = short

    assert audit_plan(season, steady.plan, rules) == []
    assert steady.bound <= steady.cost < steady.before
    assert steady.gap <= 0.02


def test_readiness_in_the_worst_tenth_is_what_the_day_by_day_figures_say(short, steady):
    """From the readiness of people's pages, in floats, which shares no sum with the search."""
    season = short[0]
    every = [readiness(made, steady.plan)[0] for made in drawn_settings(season, DRAWN)]

    for week in GREAT:
        worst = sorted(ready[week] for ready in every)[: DRAWN // 10]
        assert steady.ready[week] == pytest.approx(np.mean(worst), abs=0.02)
    assert sum(steady.ready.values()) > sum(steady.ready_before.values())


def test_the_command_says_what_it_is_worth_and_keeps_it_in_the_file(path, tmp_path):
    out = tmp_path / "plan.json"
    result = CliRunner().invoke(main, ["plan", str(path), "--robust", "--out", str(out)])
    again = CliRunner().invoke(main, ["audit", str(path), str(out)])

    assert result.exit_code == again.exit_code == 0, result.output + again.output
    assert "Made for the worst tenth of 64 settings" in result.stdout
    assert "keeps these rules and trusts the response as it is thought" in " ".join(
        result.stdout.split()
    )
    told = json.loads(out.read_text())["steady"]
    assert told["bound"] <= told["cost"] <= told["usual"]
    assert [match["week"] for match in told["matches"]] == [6, 9]


@pytest.mark.parametrize(("ready", "little"), [(74.8, True), (76.0, True), (76.3, False)])
def test_a_plan_that_lifts_no_great_match_by_a_point_says_so(ready, little):
    match = SteadyMatch(week=34, fixture="Ashby Vale", ready=ready, usual=75.2)
    part = SteadyPart(settings=64, cost=304.7, usual=305.8, bound=302.2, matches=(match,))

    assert (LITTLE_WON in steady_lines(part)) is little
