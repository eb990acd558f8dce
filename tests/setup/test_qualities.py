import pytest

from optimiser.domain.quality import Dose
from optimiser.domain.scenario import Scenario
from optimiser.domain.setup_error import SetupError
from optimiser.setup.default_ladders import default_tables
from optimiser.setup.qualities import build_qualities, default_qualities

LADDER = {
    "name": "Agility",
    "place": "field",
    "tau_fitness": 28,
    "tau_fatigue": 8,
    "doses": default_tables()["sprint"]["doses"],
    "bands": [
        {"code": "A1", "label": "Planned", "gain": 0.7},
        {"code": "A2", "label": "Open", "gain": 1},
    ],
}


def with_changes(order=(), **qualities):
    return Scenario.model_validate(
        {
            "name": "Testers",
            "first_monday": "2027-01-04",
            "weeks": 1,
            "order": order,
            "qualities": qualities,
        }
    )


def test_there_are_six_ladders_of_five_bands():
    assert {quality.key: len(quality.bands) for quality in default_qualities()} == dict.fromkeys(
        ["sprint", "resisted_sprint", "plyometrics", "power", "max_strength", "general_strength"], 5
    )


def test_a_change_touches_only_the_key_it_names():
    changed = build_qualities(with_changes(sprint={"doses": {"full": {"minutes": 40}}}))[0]
    usual = default_qualities()[0]

    for rung in range(len(usual.bands)):
        assert changed.minutes(Dose.FULL, rung) == 40
        assert changed.load(Dose.FULL, rung) == 40 * usual.doses.full.rpe
        assert changed.minutes(Dose.TOUCH, rung) == usual.minutes(Dose.TOUCH, rung)
    assert changed.doses.touch == usual.doses.touch


def test_a_ladder_is_replaced_whole():
    changed = build_qualities(with_changes(sprint={"bands": LADDER["bands"]}))[0]

    assert [band.code for band in changed.bands] == ["A1", "A2"]


def test_a_quality_can_be_dropped_and_a_new_one_added():
    keys = [
        quality.key
        for quality in build_qualities(with_changes(power={"use": False}, agility=LADDER))
    ]

    assert "power" not in keys
    assert keys[-1] == "agility"


def test_changes_never_reach_the_defaults():
    build_qualities(with_changes(sprint={"weight": 99, "use": True}))

    assert default_tables()["sprint"]["weight"] != 99
    assert "use" not in default_tables()["sprint"]


def test_the_order_can_be_chosen():
    keys = [quality.key for quality in default_qualities()]

    chosen = build_qualities(with_changes(order=keys[::-1]))

    assert [quality.key for quality in chosen] == keys[::-1]


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"order": ["sprint"]}, "each quality in use once"),
        ({"sprint": {"use": 0}}, "true or false"),
        ({"general_strenght": {"use": False}}, "must be one of sprint, .* general_strength"),
        ({"sprint": {"key": "dash"}}, "the table's own name"),
        ({key: {"use": False} for key in default_tables()}, "at least one"),
    ],
)
def test_a_choice_of_qualities_that_makes_no_sense_is_refused(changes, told):
    with pytest.raises(SetupError, match=told):
        build_qualities(with_changes(**changes))
