import pytest

from cli.files.changes_file import Origin, changed_season, read_changes, read_futures
from cli.files.scenario_file import read_scenario
from tests.conftest import SCENARIOS

SEASONS = {"minimal": "minimal.toml", "rugby": "rugby_long_season.toml"}
FILES = sorted((SCENARIOS / "changes").glob("*.toml"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_demo_of_changes_fits_its_season(path):
    loaded = read_scenario(SCENARIOS / SEASONS[path.stem.split("_")[0]])
    if path.stem.endswith("futures"):
        asked, text = read_futures(path)
        each = [(f.name, f.edits, Origin(str(path), text)) for f in asked.futures]
    else:
        given = read_changes(path)
        each = [(given.changes.name, given.changes.edits, given.origin)]

    digests = {changed_season(loaded, *one).loaded.digest for one in each}

    assert len(digests) == len(each)
    assert digests != {loaded.digest}
