"""The lists of versions in `.ci/` are what `pyproject.toml` allows."""

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def pinned(name):
    lines = (ROOT / ".ci" / name).read_text(encoding="utf-8").splitlines()
    pairs = [line.split("==") for line in lines if not line.startswith("#")]
    return {name.lower(): version for name, version in pairs}


def bounds():
    """Return the lowest version of everything that people install, by name."""
    extras = PROJECT["optional-dependencies"]
    wanted = [*PROJECT["dependencies"], *(w for e in extras if e != "dev" for w in extras[e])]
    return dict(re.split("[>=]=", each) for each in wanted)


def as_numbers(version):
    return [int(part) for part in re.findall(r"\d+", version)]


def test_the_lowest_versions_are_those_that_are_allowed():
    lowest = {name: as_numbers(version) for name, version in pinned("lowest.txt").items()}

    for name, bound in bounds().items():
        pad = [0] * len(lowest[name])
        assert (as_numbers(bound) + pad)[: len(pad)] == lowest[name], name
    assert set(lowest) == set(bounds())


def test_the_versions_of_the_last_run_are_allowed():
    last = pinned("constraints.txt")

    for name, bound in bounds().items():
        assert as_numbers(last[name]) >= as_numbers(bound), name
