"""Records of what was done: in the file, from options, from sheets; and set against the plan."""

import csv
import datetime as dt
import json

import pytest

from cli.files.errors import InputError
from cli.season.done_csv import added, done_in
from optimiser.progress.done_session import DoneSession
from tests.season.conftest import invoke

LATER = ("--today", "2027-03-10")
LAST = dt.date(2027, 3, 10)
SHEET = """\
Datum;Player;Duration;RPE;Type;Heart
03.02.2027;Aune;70;6;Field;151
03.02.2027;Birk;75,5;8;Field;160
04.02.2027;Birk;20;8;Gym;120
"""
SPOKEN = (
    "--map", "date=Datum", "--map", "who=Player", "--map", "minutes=Duration",
    "--map", "what=Type", "--word", "Field=practice", "--word", "Gym=power",
)  # fmt: skip


def record(club, *options):
    return invoke("done", club.path, *LATER, *options)


def test_a_record_is_written_below_what_stands_and_shown_against_the_plan(club):
    club.done.write_text(
        "# by the assistant\ndate;what;minutes;weather\n2027-02-02;sprint;20;rain\n"
    )

    result = record(club, "--date", "2027-02-09", "--what", "Power", "--dose", "missed")

    assert result.exit_code == 0, result.output
    assert club.done.read_text().splitlines() == [
        "# by the assistant",
        "date;what;minutes;weather;who;dose",
        "2027-02-02;sprint;20;rain",
        "2027-02-09;power;;;squad;none",
    ]
    assert "Week 2: Power" in result.stdout
    assert "3*" in result.stdout
    assert "at the high matches to come" in result.stdout


def test_two_people_who_record_at_once_both_stand(club, monkeypatch):
    import cli.season.recording as module

    commit = module.commit

    def late(folder, *arguments):
        monkeypatch.setattr(module, "commit", commit)
        club.done.write_text("date,what,minutes\n2027-02-03,sprint,20\n")
        return commit(folder, *arguments)

    record(club, "--date", "2027-02-02", "--what", "power", "--minutes", 20)
    monkeypatch.setattr(module, "commit", late)

    refused = record(club, "--date", "2027-02-02", "--what", "sprint", "--minutes", 20)
    again = record(club, "--date", "2027-02-02", "--what", "sprint", "--minutes", 20)

    assert refused.exit_code == 1
    assert "+2027-02-03,sprint,20" in refused.stderr
    assert again.exit_code == 0
    assert "2027-02-03,sprint,20" in club.done.read_text()


def test_a_sheet_is_read_by_headings_that_are_named_once_and_twice_does_no_harm(club, tmp_path):
    sheet = tmp_path / "rpe.csv"
    sheet.write_text(SHEET)

    first = record(club, "--import", sheet, *SPOKEN)
    second = record(club, "--import", sheet)

    assert first.exit_code == 0, first.output
    assert "3 records, 0 there already" in first.stderr
    assert "3 records, 3 there already" in second.stderr
    assert "2027-02-03,Birk,practice,75.5,8" in club.done.read_text()


def test_one_athlete_and_all_of_them_stand_against_the_plan(club, tmp_path):
    sheet = tmp_path / "rpe.csv"
    sheet.write_text(SHEET)
    record(club, "--import", sheet, *SPOKEN)

    one = json.loads(record(club, "--athlete", "birk", "--format", "json").stdout)
    every = record(club, "--athlete", "all").stdout

    assert one["weeks"][0]["load_done"] != one["weeks"][0]["load_planned"]
    assert [line.split()[0] for line in every.splitlines()] == ["who", "squad", "Aune", "Birk"]


def test_somebody_the_squad_file_does_not_list_is_refused_and_of_a_sheet_told(club, tmp_path):
    squad = club.path / "squad.csv"
    squad.write_text("name,group,body_mass_kg\nAune,squad,70\nBo,squad,81\n")
    sheet = tmp_path / "rpe.csv"
    sheet.write_text(SHEET)
    before = club.done.read_text() if club.done.exists() else None

    typed = record(club, "--who", "Aunne", "--what", "power", "--dose", "full")
    same = club.done.read_text() if club.done.exists() else None
    read = record(club, "--import", sheet, *SPOKEN)

    assert typed.exit_code == 1
    assert "Did you mean Aune?" in typed.stderr
    assert same == before
    assert read.exit_code == 0, read.output
    assert "Not in squad.csv: Birk." in read.stderr


def test_undo_takes_a_record_back(club):
    before = club.now(["done.csv"])
    record(club, "--date", "2027-02-02", "--what", "sprint", "--minutes", 20)

    invoke("undo", club.path)

    assert club.now(["done.csv"]) == before


def test_numbers_are_those_of_the_plan_that_is_put_in_force(club):
    record(club, "--date", "2027-02-02", "--what", "practice", "--load", 2500)
    told = json.loads(record(club, "--format", "json").stdout)

    invoke("plan", club.path, *LATER, "--apply")

    plan = json.loads(club.plan.read_text())
    for week, row in zip(plan["weeks"], told["weeks"], strict=False):
        assert week["readiness"] == row["readiness_now"]
        assert week["load"]["total"] == row["load_done"]
        assert week["done"]["recorded"] == row["recorded"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("date,what\n2027-02-02,sprint\n", "minutes, load, dose or sets"),
        ("date,what,minutes\n2027-02-02,sprnt,20\n", "line 2, what: .*did you mean sprint"),
        ("date,what,minutes\n2026-02-02,sprint,20\n", "line 2, date: must lie in the season"),
        ("date,what,minutes\n2027-03-11,sprint,20\n", "line 2: date must not lie after today"),
        ("date,what,minutes\n2027-02-02,sprint,long\n", "line 2, minutes: must be a number"),
        ("date,what,minutes,rpe\n2027-02-02,sprint,20,11\n", "line 2.*rpe"),
        ("date,what,dose\n2027-02-02,sprint,lots\n", "line 2.*dose"),
        ("date,what,minutes,band\n2027-02-02,sprint,20,M3\n", "line 2, band: must be one of S1"),
        ("date,what,minutes,band\n2027-02-02,match,80,M3\n", "band: must be empty here"),
        ("date,minuets,what\n", "did you mean minutes"),
        ("what,minutes\nsprint,20\n", "no date"),
        ("date,what,minutes\n02/03/2027,sprint,20\n", "must tell the day from the month"),
    ],
)
def test_what_cannot_be_used_is_told_with_its_line(tmp_path, minimal, text, said):
    with pytest.raises(InputError, match=f"(?i){said}"):
        done_in(tmp_path / "done.csv", text, minimal.season, LAST)


def test_what_is_added_reads_back(minimal, tmp_path):
    made = DoneSession(
        date="2027-02-16", who="Aune, the younger", what="sprint", minutes=22.5, rpe=7, note="=wet"
    )

    text = added("", [made])

    [read] = done_in(tmp_path / "done.csv", text, minimal.season, LAST)
    assert read.model_dump() == made.model_dump()


def test_the_page_and_the_chart_show_what_was_planned_beside_what_was_done(club, tmp_path):
    record(club, "--date", "2027-02-09", "--what", "power", "--dose", "missed")
    told = json.loads(record(club, "--format", "json").stdout)["weeks"][1]

    result = invoke("report", club.path, *LATER, "--html", "-o", tmp_path / "out")

    assert result.exit_code == 0, result.output
    page = (tmp_path / "out" / "report.html").read_text()
    section = page.split('Planned and done up to 2027-03-10">')[1].split("</table>")[0]
    assert f">{told['load_planned']}<" in section
    assert f">{told['load_done']}<" in section
    assert f">{told['readiness_now']:.1f}<" in section
    assert "dotted" in page


def test_logged_sets_are_recorded_and_a_lift_that_is_none_is_refused(full_club):
    club = full_club
    lift = ("--date", "2027-02-09", "--who", "Aune", "--what", "max_strength", "--kg", 100)
    lift += ("--reps", 5, "--left", 2)

    good = record(club, *lift, "--exercise", "Squat")
    bad = record(club, *lift, "--exercise", "squad")

    assert good.exit_code == 0, good.output
    (row,) = csv.DictReader(club.done.read_text().splitlines())
    assert [row[name] for name in ("exercise", "kg", "reps", "left")] == ["squat", "100", "5", "2"]
    assert bad.exit_code == 1
    assert "exercise: must name a lift of the library" in bad.stderr
    assert "Did you mean squat?" in bad.stderr


def test_a_whole_session_done_as_planned_is_the_plans_own_work_without_its_warm_up(club):
    now = ("--today", "2027-04-01")
    week = json.loads(invoke("week", club.path, "--week", 8, *now, "--format", "json").stdout)
    sessions = [(day["date"], session) for day in week["days"] for session in day["sessions"]]
    gym = [(day, session) for day, session in sessions if session["place"] == "gym"]
    for day, session in gym:
        told = ("--what", "gym", "--minutes", session["minutes"], "--rpe", 5)
        made = invoke("done", club.path, *now, "--date", day, *told)
        assert made.exit_code == 0, made.output

    rows = list(csv.DictReader(club.done.read_text().splitlines()))
    work = [work for _, session in gym for work in session["work"]]
    planned = sorted((each["quality"], float(each["minutes"])) for each in work)
    assert sorted((row["what"], float(row["minutes"])) for row in rows) == planned
    assert sum(week["minutes"].values()) == sum(session["minutes"] for _, session in sessions)


def test_a_whole_session_that_no_plan_has_and_sets_of_one_are_refused(club):
    lifts = record(club, "--date", "2027-02-09", "--what", "gym", "--sets", 5)
    by_hand = "date,what,minutes\n2027-02-09,gym,40\n"
    club.done.write_text(by_hand)
    typed = record(club)

    assert "must be a quality where sets are counted" in lifts.stderr
    assert "`done --what gym`" in typed.stderr
    assert club.done.read_text() == by_hand
