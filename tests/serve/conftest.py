from pathlib import Path

import pytest
from chromium_page import chromium
from serving import serving
from small_season import FIXTURES, SCENARIO


@pytest.fixture(scope="session")
def small():
    """Write a season of nine weeks, which is planned in a second, to a folder."""

    def write(folder, text=SCENARIO):
        folder.mkdir(parents=True, exist_ok=True)
        scenario = Path(folder) / "season.toml"
        scenario.write_text(text, encoding="utf-8")
        (folder / "list.csv").write_text(FIXTURES, encoding="utf-8")
        return scenario

    return write


@pytest.fixture(scope="package")
def server(small, tmp_path_factory):
    """A small season, served; its first plan is there."""
    with serving(small(tmp_path_factory.mktemp("served"))) as served:
        served.settled()
        yield served


@pytest.fixture
def served(server):
    server.begin_again()
    return server


@pytest.fixture(scope="session")
def browser():
    with chromium() as started:
        yield started
