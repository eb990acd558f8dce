import json
import tomllib

import pytest
from click.testing import CliRunner

from cli.main import main
from constraints import CATALOGUE
from constraints.load import load_rules


def run(*arguments):
    return CliRunner().invoke(main, ["rules", *arguments])


def test_every_rule_is_listed_with_its_words_and_safety_rules_are_marked():
    result = run()

    assert result.exit_code == 0
    starts = {line.split()[0]: line for line in result.output.splitlines() if line[:1].isalpha()}
    assert set(CATALOGUE) <= set(starts)
    marked = {name for name, line in starts.items() if line[len(name) : len(name) + 2] == " !"}
    assert marked == {name for name, kind in CATALOGUE.items() if kind.safety}


@pytest.mark.parametrize("name", CATALOGUE)
def test_each_parameter_of_a_rule_is_explained(name):
    told = json.loads(run(name, "--format", "json").output)[0]

    assert [parameter["name"] for parameter in told["parameters"]] == [
        field for field in CATALOGUE[name].model_fields if field not in ("price", "waive")
    ]
    assert all(parameter["about"] for parameter in told["parameters"])


@pytest.mark.parametrize("name", CATALOGUE)
def test_the_example_of_a_rule_can_be_pasted_into_a_scenario(name):
    text = run(name).output
    example = text.split("In a scenario, with the defaults:\n")[1].split("\n\n")[0]

    rules = load_rules(tomllib.loads(example)["rules"])

    assert next(rule for rule in rules if rule.name == name) == CATALOGUE[name]()


def test_sources_are_named():
    assert "Bosquet et al. 2007" in run("taper").output


def test_json_lists_every_rule():
    listed = json.loads(run("--format", "json").output)

    assert [rule["name"] for rule in listed] == list(CATALOGUE)


def test_a_misspelt_rule_is_answered_with_the_right_one():
    result = run("tapr")

    assert result.exit_code == 2
    assert "did you mean taper?" in result.output
