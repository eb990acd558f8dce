"""Who is there: told beside a week, and asked about where most are not."""

import datetime as dt

import pytest

from cli.files.scenario_file import read_scenario
from optimiser.athlete.attendance import attendance, days_between, shared_absences
from optimiser.athlete.availability import AthleteHistory, AvailabilityEntry
from tests.season.conftest import invoke

TODAY = ("--today", "2027-03-10")
SQUAD = "name,group,body_mass_kg\nAune,squad,70\nBirk,squad,80\nCai,squad,81\nDag,squad,77\n"
ENTERED = """\
athlete,from,to,status,stage,limits,words
Aune,2027-03-15,,out,,,
Birk,2027-03-16,2027-03-21,away,,,
Cai,2027-03-17,2027-03-19,away,,,
Dag,2027-03-10,,limited,3,hamstring,
"""


def day(number):
    return dt.date(2027, 3, number)


def away(first, last):
    return AthleteHistory(
        entries=(AvailabilityEntry(athlete="A", first=day(first), last=day(last), status="away"),)
    )  # fmt: skip


def test_each_day_tells_who_trains_who_is_out_and_who_is_elsewhere():
    hurt = AthleteHistory(entries=(AvailabilityEntry(athlete="B", first=day(2), status="out"),))

    found = attendance({"A": away(3, 5), "B": hurt, "C": AthleteHistory()}, day(4))

    assert (found.there, found.out, found.away) == (("C",), ("B",), ("A",))


def test_only_days_in_a_row_on_which_most_are_missing_are_a_shared_absence():
    squad = {"A": away(3, 8), "B": away(5, 9), "C": AthleteHistory()}
    days = days_between(day(1), day(20))

    [found] = shared_absences(squad, days, ())

    assert (found.first, found.last, found.fewest) == (day(5), day(8), 1)
    assert shared_absences(squad, days, {day(6), day(7)}) == []


@pytest.fixture
def club_with_squad(club):
    (club.path / "squad.csv").write_text(SQUAD)
    (club.path / "availability.csv").write_text(ENTERED)
    return club


def test_a_week_says_how_many_are_there_and_who_is_not(club_with_squad):
    told = invoke("week", club_with_squad.path, *TODAY, "--week", 7).stdout

    said = " ".join(told.split())
    assert "Squad: Mon 3, Tue 2, Wed to Fri 1, Sat to Sun 2 of 4 are there." in said
    assert "Out: Aune. Away: Birk, Cai. Limited: Dag." in said
    assert "Squad: all 4 are there." in invoke(
        "week", club_with_squad.path, "--today", "2027-01-30", "--week", 2
    ).stdout  # fmt: skip


def test_days_without_most_of_the_squad_are_asked_about_and_can_be_closed(club_with_squad):
    before = club_with_squad.now()

    asked = " ".join(invoke("plan", club_with_squad.path, *TODAY).stderr.split())

    close = "2027-03-17:2027-03-19"
    assert "From 2027-03-17 to 2027-03-19 only 1 is there of the squad of 4" in asked
    assert f"`seasonwright whatif {club_with_squad.path} --close {close} --apply`" in asked
    assert club_with_squad.now() == before
    done = invoke("whatif", club_with_squad.path, *TODAY, "--close", close, "--apply")
    assert done.exit_code == 0, done.output
    assert read_scenario(club_with_squad.scenario).scenario.breaks
    again = invoke("replan", club_with_squad.path, *TODAY)
    assert "are there of the squad" not in again.stderr
    assert "is there of the squad" not in again.stderr


def test_a_season_without_a_squad_asks_nothing(club):
    (club.path / "squad.csv").write_text("name,group,body_mass_kg\n")

    assert "squad of" not in invoke("plan", club.path, *TODAY).stderr
