import shutil
from pathlib import Path

import pytest
from chromium_page import chromium
from serving import serving

from cli.files.scenario_file import read_scenario
from optimiser.describe import describe
from optimiser.domain.quality import Dose

MINIMAL = Path(__file__).parents[2] / "scenarios" / "minimal.toml"


@pytest.fixture(scope="session")
def copied(plain_plan):
    """Copy the smallest demo season to a folder, with a plain plan beside it."""

    def copy(folder, text=None):
        scenario = folder / "season.toml"
        if text is None:
            shutil.copy(MINIMAL, scenario)
        else:
            scenario.write_text(text, encoding="utf-8")
        loaded = read_scenario(scenario)
        plan = plain_plan(loaded.season, rung=1, dose=Dose.REDUCED)
        document = describe(
            loaded.season, plan, [], None, digest=loaded.digest, seed=0, versions={}
        )
        (folder / "plan.json").write_text(document.model_dump_json(), encoding="utf-8")
        return scenario, folder / "plan.json"

    return copy


@pytest.fixture(scope="module")
def server(copied, tmp_path_factory):
    """The smallest demo season, served with a plan."""
    scenario, plan = copied(tmp_path_factory.mktemp("served"))
    with serving(scenario, "--plan", str(plan)) as served:
        yield served


@pytest.fixture
def served(server):
    server.begin_again()
    return server


@pytest.fixture(scope="session")
def browser():
    with chromium() as started:
        yield started
