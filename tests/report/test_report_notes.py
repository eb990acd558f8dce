import json

import pytest

from cli.files.errors import InputError
from cli.report.notes import read_note

PRICES = {
    "format": "seasonwright.prices/1",
    "season": "Northlea Spring Series",
    "score": 97.1,
    "rules": [
        {"rule": "taper", "safety": False, "dropped": 1.24, "looser": 0.4, "step": "a bit"},
        {"rule": "deload", "safety": True, "dropped": None, "looser": None, "step": None},
    ],
}
WHY = {
    "format": "seasonwright.why/1",
    "week": 8,
    "quality": "sprint",
    "block": [7, 8],
    "bands": [
        {"choice": "S2", "current": True, "allowed": True, "score": 0, "breaches": []},
        {"choice": "S3", "current": False, "allowed": False, "score": -1.3,
         "breaches": [{"words": "up too fast"}]},
    ],
    "doses": [],
}  # fmt: skip


def read(tmp_path, small, data):
    path = tmp_path / "note.json"
    path.write_text(data if isinstance(data, str) else json.dumps(data), encoding="utf-8")
    return read_note(path, small.season)


def test_prices_become_a_table_in_which_safety_is_marked(tmp_path, small):
    note = read(tmp_path, small, PRICES)

    assert note.rows == (("taper", "+1.2", "+0.4", "a bit"), ("deload !", "not found", "", ""))
    assert "no reason to drop it" in note.about


def test_why_becomes_a_table_of_the_other_choices(tmp_path, small):
    note = read(tmp_path, small, WHY)

    assert note.title == "Why Sprint in week 8"
    assert note.rows[0] == ("S2", "as it is", "", "")
    assert note.rows[1] == ("S3", "breaks rules", "-1.3", "up too fast")


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"format": "other/1"}, "must be one of"),
        ({"season": "Elsewhere"}, "must be Northlea"),
        ({"rules": [{"rule": "taper"}]}, "rules"),
        ("{", "must be JSON"),
        ("[]", "must be one of"),
    ],
)
def test_what_cannot_be_used_is_told(tmp_path, small, change, said):
    data = change if isinstance(change, str) else PRICES | change

    with pytest.raises(InputError) as refused:
        read(tmp_path, small, data)
    assert said in refused.value.format_message()


@pytest.mark.parametrize("change", [{"week": 99}, {"quality": "chess"}])
def test_why_of_another_season_is_told(tmp_path, small, change):
    with pytest.raises(InputError, match="of this season"):
        read(tmp_path, small, WHY | change)
