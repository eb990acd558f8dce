"""Who may train from when, entered below what stands in the folder's file."""

import pytest

from cli.files.errors import InputError
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.season.entering import enter
from cli.serve.side import SeasonSide
from cli.serve.who_is_there import who_is_there

SQUAD = "name,group,body_mass_kg\nAune,squad,70\nBirk,squad,80\n"
THEIRS = "status;athlete;from\nout;Aune;2027-03-01\n"


@pytest.fixture
def squad(club):
    (club.path / "squad.csv").write_text(SQUAD)
    (club.path / "availability.csv").write_text(THEIRS)
    return club


def test_an_entry_goes_below_the_others_in_the_files_own_columns(squad):
    loaded = read_scenario(squad.scenario)
    cells = {"athlete": "Birk", "from": "2027-03-16", "status": "limited", "stage": "3"}
    enter(squad, loaded, {**cells, "limits": "hamstring"})
    week = loaded.season.weeks[6]
    told = who_is_there(SeasonSide(loaded, tuple(read_rules(loaded))), week)

    assert (squad.path / "availability.csv").read_text().splitlines() == [
        "status;athlete;from;stage;limits",
        "out;Aune;2027-03-01",
        "limited;Birk;2027-03-16;3;hamstring",
    ]
    people = {each["name"]: each for each in told["people"]}
    assert people["Aune"]["stage"] == 0
    assert people["Birk"]["days"] == [6, 3, 3, 3, 3, 3, 3]
    assert people["Birk"]["words"] == "hamstring"
    assert "80 %" in told["ladder"][3]


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ({"athlete": "Nobody", "from": "2027-03-16", "status": "out"}, "athlete of the squad"),
        ({"athlete": "Birk", "from": "2027-03-16", "status": "limited"}, "stage from 1 to 5"),
        ({"athlete": "Birk", "from": "some day", "status": "out"}, "must be a date"),
    ],
)
def test_what_cannot_be_used_is_told_of_the_folders_file_and_not_written(squad, cells, words):
    before = (squad.path / "availability.csv").read_bytes()
    with pytest.raises(InputError, match=words) as refused:
        enter(squad, read_scenario(squad.scenario), cells)

    assert refused.value.file == str(squad.path / "availability.csv")
    assert (squad.path / "availability.csv").read_bytes() == before


def test_a_season_without_a_squad_has_nobody_to_tell_of(club):
    loaded = read_scenario(club.scenario)

    assert who_is_there(SeasonSide(loaded, ()), loaded.season.weeks[0]) is None
