"""Dated tests: the latest before a session sets its load, and noise is not called progress."""

import datetime as dt
import random
from itertools import pairwise

import pytest
from click.testing import CliRunner

from cli.files.errors import InputError
from cli.files.tests_file import read_measured
from cli.main import main
from optimiser.athlete.card import ChosenBand, WeekInfo
from optimiser.athlete.cards import card
from optimiser.athlete.library import default_library
from optimiser.athlete.measured import Measured, as_measured
from optimiser.athlete.squad import Athlete
from optimiser.athlete.trend import error_of, trends
from optimiser.domain.quality import Dose
from optimiser.setup.qualities import default_qualities

MONDAY = dt.date(2026, 10, 5)
WEEK = WeekInfo(number=9, monday=MONDAY, phase="in-season", field=2, gym=2)
STRENGTH = next(each for each in default_qualities() if each.key == "max_strength")
ADA = Athlete(name="Ada", group="squad", body_mass_kg=70, lifts={"squat": {"one_rm_kg": 90}})
KEYS = default_library().exercises


def result(day, value, test="squat_1rm_kg", athlete="Ada"):
    return Measured(athlete=athlete, date=day, test=test, value=value)


def squat(athlete, rung=0, **week):
    choice = ChosenBand(quality=STRENGTH, rung=rung, dose=Dose.FULL)
    return card(athlete, [choice], WEEK.model_copy(update=week)).sections[0].lines[0]


def test_the_latest_test_before_the_week_sets_the_load_and_is_told_with_its_error():
    results = [
        result(dt.date(2026, 10, 5), 130),
        result(dt.date(2026, 9, 28), 120),
        result(dt.date(2026, 7, 1), 100),
    ]

    line = squat(as_measured(ADA, results, MONDAY))

    # 75 % of 120 kg
    assert line.kg == (90, 90)
    assert "±4 %, 2026-09-28" in line.how
    assert squat(as_measured(ADA, results, dt.date(2026, 6, 1))).kg == squat(ADA).kg


def test_a_set_of_five_is_an_estimate_with_a_wider_error():
    who = as_measured(ADA, [result(dt.date(2026, 9, 1), 90, "squat_5rm_kg")], MONDAY)

    assert "±5-7 %, 2026-09-01" in squat(who).how


def test_a_whole_sprint_replaces_the_older_one_and_single_splits_do_not():
    day = dt.date(2026, 9, 1)
    whole = [result(day, s, f"split_{m}_m_s") for m, s in ((10, 1.9), (20, 3.3), (30, 4.6))]
    who = as_measured(
        ADA, [*whole, result(day + dt.timedelta(days=7), 1.8, "split_10_m_s")], MONDAY
    )

    assert who.splits == {10: 1.9, 20: 3.3, 30: 4.6}


def test_an_old_test_is_called_old():
    who = as_measured(ADA, [result(dt.date(2026, 6, 1), 100)], MONDAY)

    assert any("squat 2026-06-01" in note for note in card(who, [], WEEK).notes)


def test_loads_rise_inside_a_block_and_the_next_begins_lighter():
    loads = [squat(ADA, rung=2, block_week=week).percent[1] for week in (1, 2, 3, 4, 5)]

    assert loads == sorted(loads)
    assert loads[0] < loads[2] == 85 < loads[3] == loads[4]
    # ACSM 2009: at most 10 % a step
    assert all(after / before <= 1.1 for before, after in pairwise(loads))
    left = [squat(ADA, rung=2, block_week=week).reserve[0] for week in (1, 2, 3, 4)]
    assert left == sorted(left, reverse=True)
    assert left[-1] >= 1


@pytest.mark.parametrize(("last", "verdict"), [(105, "noise"), (120, "better"), (80, "worse")])
def test_a_change_within_the_error_is_no_progress(last, verdict):
    found = trends([result(dt.date(2026, 7, 1), 100), result(dt.date(2026, 9, 1), last)])

    assert [each.verdict for each in found] == [verdict]
    assert found[0].noise == pytest.approx(1.96 * 2**0.5 * 4)


def test_a_faster_sprint_is_better():
    rows = [result(dt.date(2026, 7, day), s, "split_10_m_s") for day, s in ((1, 2.0), (20, 1.8))]

    assert trends(rows)[0].verdict == "better"


def simulated(seed, gain, error=4.0, athletes=20):
    rng = random.Random(seed)
    rows = []
    for number in range(athletes):
        true = rng.uniform(80, 140)
        for day, level in ((1, true), (30, true * (1 + gain / 100))):
            value = level * (1 + rng.gauss(0, error / 100))
            rows.append(result(dt.date(2026, 9, day), value, athlete=f"A{number}"))
    return rows


def test_no_gain_is_called_progress_about_as_seldom_as_the_error_says():
    verdicts = [each.verdict for seed in range(20) for each in trends(simulated(seed, 0))]

    assert sum(verdict != "noise" for verdict in verdicts) <= 0.1 * len(verdicts)


def test_a_squads_gain_shows_where_single_athletes_stay_within_the_error():
    squads = [trends(simulated(seed, 6))[0] for seed in range(10)]

    assert sum(each.verdict == "better" for each in squads) >= 9
    assert all(each.noise < 6 for each in squads)


def test_tests_taken_twice_on_a_day_tell_the_error():
    rng = random.Random(3)
    rows = [
        result(dt.date(2026, 9, 1), 30 * (1 + rng.gauss(0, 0.08)), "jump_cm", f"A{number}")
        for number in range(200)
        for _ in range(2)
    ]

    assert error_of("jump_cm", rows) == pytest.approx(8, rel=0.15)


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("Adda,2026-09-01,squat_1rm_kg,100", "did you mean Ada?"),
        ("Ada,1.9.2026,squat_1rm_kg,100", "line 2, date"),
        ("Ada,2026-09-01,sqat_1rm_kg,100", "did you mean squat_1rm_kg?"),
        ("Ada,2026-09-01,squat_15rm_kg,100", "1 to 10 repetitions"),
        ("Ada,2026-09-01,squat_1rm_kg,100 kg", "line 2, value"),
        ("Ada,2026-09-01,squat_1rm_kg,-3", "above 0"),
        ("Ada,2026-09-01,Höhe!,3", "line 2, test"),
        ("Ada,2026-09-01,,3", "line 2, test"),
    ],
)
def test_what_cannot_be_used_is_told_where_and_why(tmp_path, row, said):
    path = tmp_path / "tests.csv"
    path.write_text(f"athlete,date,test,value\n{row}\n", encoding="utf-8")

    with pytest.raises(InputError) as found:
        read_measured(path, KEYS, ["Ada"])
    assert said.lower() in found.value.message.lower()


def test_the_command_shows_trends_and_refuses_an_unknown_athlete(tmp_path):
    path = tmp_path / "tests.csv"
    path.write_text(
        "athlete,date,test,value\nAda,2026-07-01,jump_cm,30\nAda,2026-09-01,jump_cm,31\n"
    )

    shown = CliRunner().invoke(main, ["tests", str(path)])
    folder = CliRunner().invoke(main, ["tests", str(tmp_path)])
    wrong = CliRunner().invoke(main, ["tests", str(path), "--athlete", "Bea"])

    assert folder.stdout == shown.stdout
    assert "+3.3 %" in shown.stdout
    assert "no change to speak of" in shown.stdout
    assert "no card works with them: jump_cm." in shown.stdout
    assert (shown.exit_code, wrong.exit_code) == (0, 2)
