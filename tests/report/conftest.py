from pathlib import Path

import pytest
from chromium_page import chromium

from cli.files.scenario_file import load_scenario
from cli.files.scenario_rules import read_rules
from cli.report.report import make_report
from optimiser.domain.quality import Dose
from optimiser.review.describe import describe

#: Names that mean to do harm, or are hard to show.
HARD_NAMES = {
    "script": "<script>document.title='hit'</script>",
    "image": "<img src=x onerror=document.title='hit'>",
    "template": "{{ 7 * 7 }} {% raw %}",
    "equals": "=1+1",
    "plus": "+SUM(A1:A9)",
    "minus": "-2+3",
    "at": "@SUM(1)",
    "lines": "North\\nEnd\\tUnited",
    "hebrew": "\u05de\u05db\u05d1\u05d9 \u05d4\u05e6\u05e4\u05d5\u05df",
    "turned": "Abc\u202eDef\u2066",
    "emoji": "Foxes \U0001f98a FC",
    "math": "$x^2$ & Sons",
    "long": "Very" * 20,
    "bell": "Bell\\u0007Town",
}


@pytest.fixture(scope="session")
def hard_text():
    """A scenario whose season, opponents, competitions and qualities have hard names."""
    names = list(HARD_NAMES.values())
    fixtures = "\n".join(
        f"    {{ date = 2027-{2 + (5 + 7 * week) // 28:02d}-{1 + (5 + 7 * week) % 28:02d}, "
        f'opponent = "{name}", competition = "{names[-1 - week]}", '
        f'priority = "{("high", "medium", "low")[week % 3]}", kickoff = "15:00" }},'
        for week, name in enumerate(names)
    )
    return (
        f'name = "{HARD_NAMES["script"]} {HARD_NAMES["hebrew"]}"\n'
        "first_monday = 2027-02-01\nweeks = 16\n"
        f"fixtures = [\n{fixtures}\n]\n"
        f'[qualities.sprint]\nname = "{HARD_NAMES["equals"]}"\n'
        f'[qualities.power]\nname = "{HARD_NAMES["image"][:40]}"\n'
    )


@pytest.fixture(scope="session")
def hard_names():
    return HARD_NAMES


@pytest.fixture(scope="session")
def reported(plain_plan):
    """Make the report of a scenario's text and a plain plan for it, in which something varies."""

    def make(text, path=Path("season.toml"), plan=None, **more):
        path.exists() or path.write_text(text, encoding="utf-8")
        loaded = load_scenario(text, path)
        rules = read_rules(loaded)
        made = plan or varied(loaded.season, plain_plan)
        document = describe(
            loaded.season, made, rules, None, digest=loaded.digest, seed=0, versions={"one": "1"}
        )
        return make_report(loaded, rules, made, document, **more)

    return make


def varied(season, plain_plan):
    """Rungs that rise from block to block, and every dose in turn."""
    plan = plain_plan(season, rung=1, dose=Dose.REDUCED)
    tops = [len(quality.bands) - 1 for quality in season.qualities]
    rungs = [
        [None if rung is None else min(tops[q], week // 4 + q % 2) for week, rung in enumerate(row)]
        for q, row in enumerate(plan.rungs)
    ]
    doses = [
        [Dose.NONE if rungs[q][week] is None else Dose((week + q) % 4) for week in range(len(row))]
        for q, row in enumerate(plan.doses)
    ]
    return plan.model_copy(
        update={"rungs": tuple(map(tuple, rungs)), "doses": tuple(map(tuple, doses))}
    )


@pytest.fixture(scope="session")
def small(reported, tmp_path_factory):
    """The report of the smallest demo season."""
    text = (Path(__file__).parents[2] / "scenarios" / "minimal.toml").read_text(encoding="utf-8")
    return reported(text, tmp_path_factory.mktemp("small") / "minimal.toml")


@pytest.fixture(scope="session")
def hard(reported, hard_text, tmp_path_factory):
    """The report of a season whose names are hard."""
    return reported(hard_text, tmp_path_factory.mktemp("hard") / "hard.toml")


@pytest.fixture(scope="session")
def browser():
    with chromium() as started:
        yield started
