import pytest

from cli.files.errors import InputError
from cli.files.rule_sets import AS_WRITTEN, merge, read_rule_sets, under
from cli.files.scenario_file import load_scenario

SCENARIO = """\
name = "Club"
first_monday = 2026-07-06
weeks = 8

[[fixtures]]
date = 2026-08-29
priority = "high"

[rules.session_caps]
in_season = { field = 1, gym = 1 }

[rules.revisit]
use = false
"""


def written(tmp_path, text, name="strict.toml"):
    path = tmp_path / name
    path.write_text(text)
    return path


def test_a_set_bears_its_files_name_and_the_rules_as_written_come_first(tmp_path):
    path = written(tmp_path, "[rules.load_ramp]\npercent = 10\n")

    sets = read_rule_sets([path])

    assert [item.name for item in sets] == [AS_WRITTEN, "strict"]
    assert sets[1].tables == {"load_ramp": {"percent": 10}}


def test_a_set_is_laid_over_the_scenarios_own_rules_key_by_key(tmp_path):
    loaded = load_scenario(SCENARIO, tmp_path / "club.toml")
    text = "[rules.session_caps.in_season]\ngym = 3\n[rules.load_ramp]\npercent = 5\n"
    _, strict = read_rule_sets([written(tmp_path, text)])

    held = under(loaded, strict)

    assert held.scenario.rules == {
        "session_caps": {"in_season": {"field": 1, "gym": 3}},
        "revisit": {"use": False},
        "load_ramp": {"percent": 5},
    }
    assert held.season == loaded.season
    assert held.digest != loaded.digest


def test_the_base_set_changes_nothing(tmp_path):
    loaded = load_scenario(SCENARIO, tmp_path / "club.toml")

    assert under(loaded, read_rule_sets([])[0]) == loaded


def test_merging_leaves_both_sides_as_they_were():
    below, above = {"a": {"x": 1, "y": [1, 2]}}, {"a": {"y": [3]}, "b": {"z": 1}}

    assert merge(below, above) == {"a": {"x": 1, "y": [3]}, "b": {"z": 1}}
    assert (below, above) == ({"a": {"x": 1, "y": [1, 2]}}, {"a": {"y": [3]}, "b": {"z": 1}})


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("weeks = 5", "[rules.NAME] tables only"),
        ("rules = 3", "must be a table"),
        ("[rules]\nload_ramp = 4", "must be a table"),
        ("[rules.load_rampp]\npercent = 10", "Did you mean load_ramp?"),
        ("[rules.load_ramp]\npercent = -1", "line 2"),
        ("[rules.load_ramp]\nuse = 3", "must be true or false"),
        ("[rules.load_ramp", "must be TOML"),
    ],
)
def test_a_set_that_cannot_be_used_is_refused_at_once(tmp_path, text, said):
    with pytest.raises(InputError) as error:
        read_rule_sets([written(tmp_path, text)])

    assert said in str(error.value)


def test_two_sets_of_one_name_are_refused(tmp_path):
    (tmp_path / "more").mkdir()
    paths = [written(tmp_path, ""), written(tmp_path / "more", "")]

    with pytest.raises(InputError, match="names of their own"):
        read_rule_sets(paths)
