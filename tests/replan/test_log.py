import pytest

from cli.files.errors import InputError
from cli.files.log_csv import read_log
from optimiser.audit import structure
from optimiser.domain.changes import Close
from optimiser.domain.quality import Dose
from optimiser.domain.setup_error import SetupError
from optimiser.replan.log import Done, history
from optimiser.whatif.apply import apply_edits


@pytest.fixture
def read(tmp_path, season):
    def reader(text):
        path = tmp_path / "done.csv"
        path.write_text(text)
        return read_log(path, season)

    return reader


def test_a_log_is_read_by_key_or_name_code_or_rung(read):
    found = read(
        "week;quality;dose;band;load_au;note\n2;Sprint;FULL;s3;140;wind\n\n3;power;missed;;;\n"
    )

    assert found == [
        Done("line 2", 1, 0, Dose.FULL, 2, 140),
        Done("line 4", 2, 3, Dose.NONE, None, None),
    ]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("week,quality\n", "no dose"),
        ("week,quality,dose,pace\n", "columns must be among"),
        ("week,quality,dose,dose\n", "dose twice"),
        ("week,quality,dose\n15,sprint,full\n", "line 2, week: must be .* number from 1 to 14"),
        ("week,quality,dose\n-1,sprint,full\n", "line 2, week"),
        ("week,quality,dose\n1,sprnt,full\n", "line 2, quality.*did you mean sprint"),
        ("week,quality,dose\n1,sprint,lots\n", "none, touch, reduced, full or missed"),
        ("week,quality,dose\n1,sprint,\n", "line 2, dose.*an empty cell"),
        ("week,quality,dose,band\n1,sprint,full,S9\n", "line 2, band: must be one of S1"),
        ("week,quality,dose,load_au\n1,sprint,full,9999\n", "line 2, load_au"),
    ],
)
def test_what_cannot_be_used_is_told_with_its_line(read, text, said):
    with pytest.raises(InputError, match=f"(?i){said}"):
        read(text)


def test_without_a_log_all_went_as_planned(season, plan):
    assert history(season, plan, 6).past == plan


def test_a_missed_session_leaves_no_session_behind(season, plan):
    gym = [i for i, quality in enumerate(season.qualities) if quality.place == "gym"]
    log = [Done(f"line {i}", 2, i, Dose.NONE) for i in gym]

    past = history(season, plan, 6, log).past

    assert past.gym[2] == 0
    assert past.field == plan.field
    assert structure(season, past) == []


def test_more_than_planned_finds_a_session(season, plan, plain_plan):
    rest = plain_plan(season, dose=Dose.NONE).model_copy(
        update={"field": (0,) * 14, "gym": (0,) * 14}
    )

    past = history(season, rest, 6, [Done("line 2", 3, 0, Dose.FULL, 1)]).past

    assert (past.field[3], past.gym[3]) == (1, 0)


def test_load_that_was_logged_counts_in_its_week(season, plan):
    usual = season.qualities[0].load(Dose.FULL)

    there = history(season, plan, 6, [Done("line 2", 3, 0, Dose.FULL, None, usual + 120)]).season

    assert there.weeks[3].practice_load == season.weeks[3].practice_load + 120
    assert there.weeks[4] == season.weeks[4]


def test_work_in_a_closed_week_contradicts_the_scenario(minimal, plan):
    first = minimal.season.weeks[1].monday
    last = minimal.season.weeks[2].monday
    closed = apply_edits(minimal.scenario, minimal.season, [Close(first=first, last=last)]).season

    with pytest.raises(SetupError, match="line 7: week 2 is closed in this scenario"):
        history(closed, plan, 6, [Done("line 7", 1, 0, Dose.TOUCH)])


def test_a_week_that_is_not_over_cannot_be_logged(season, plan):
    with pytest.raises(SetupError, match=r"line 2: week must be over: 1 to 6 \(got 7\)"):
        history(season, plan, 6, [Done("line 2", 6, 0, Dose.TOUCH)])


def test_a_cell_cannot_be_logged_twice(season, plan):
    log = [Done("line 2", 1, 0, Dose.TOUCH), Done("line 3", 1, 0, Dose.FULL)]

    with pytest.raises(SetupError, match=r"line 3.*as in line 2"):
        history(season, plan, 6, log)
