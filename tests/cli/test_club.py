"""Several squads of a club on what they share."""

import datetime as dt
import json
from dataclasses import replace
from itertools import pairwise

import pytest
from click.testing import CliRunner
from icalendar import Calendar

from cli.club_agenda import Agenda, AgendaEntry, athlete_agendas, pool_agenda
from cli.commands.club import club_command
from cli.files.scenario_file import read_scenario
from cli.main import main
from optimiser.athlete.availability import AthleteHistory, AvailabilityEntry
from optimiser.club.time_limit import Patience
from optimiser.days.shared import Pool
from optimiser.days.week_plan import OwnTime
from optimiser.domain.quality import Dose
from optimiser.review.describe import describe

SEASON = """
name = "{name}"
first_monday = 2027-02-01
weeks = 2
fixtures = [{{ date = 2027-02-06, kickoff = "15:00" }}, {{ date = 2027-02-13, kickoff = "15:00" }}]
"""
CLUB = """
name = "Oakhurst"

[[squads]]
name = "First"
scenario = "first.toml"
plan = "first.json"

[[squads]]
name = "Second"
scenario = "second.toml"
plan = "second.json"
priority = 2

[[shared]]
name = "Gym"
uses = ["gym"]
"""


@pytest.fixture
def club(tmp_path, plain_plan):
    return made_club(tmp_path, plain_plan)


def made_club(tmp_path, plain_plan):
    """Write a club of two squads whose weeks are alike, and return how to call the command."""
    for name in ("first", "second"):
        path = tmp_path / f"{name}.toml"
        path.write_text(SEASON.format(name=name))
        loaded = read_scenario(path)
        plan = plain_plan(loaded.season, rung=3, dose=Dose.TOUCH)
        told = describe(loaded.season, plan, [], None, digest=loaded.digest, seed=0, versions={})
        (tmp_path / f"{name}.json").write_text(told.model_dump_json())

    def call(*args, text=CLUB):
        (tmp_path / "club.toml").write_text(text)
        return CliRunner().invoke(club_command, [str(tmp_path), *args])

    return call


def test_a_year_says_how_full_rooms_are_and_what_is_proven(club):
    done = club("--prices")

    assert done.exit_code == 0
    assert "Oakhurst: 2 squads, 2 weeks" in done.output
    assert "one squad more at once" in done.output


def test_a_week_shows_every_squad_and_nobody_shares_the_gym(club):
    done = club("--monday", "2027-02-03")
    rows = done.output.split("Gym, week of 2027-02-01")[1].splitlines()
    times = sorted((row[:10], *row[12:23].split("-")) for row in rows if "gym session" in row)

    assert "First, week 1" in done.output
    assert "Second, week 1" in done.output
    assert len(times) >= 2
    assert done.output.count("Stop at pain") == 1
    for (day, _, end), (other, start, _) in pairwise(times):
        assert day != other or end <= start


def test_a_second_place_in_a_room_that_two_want_is_worth_something(club):
    told = club("--prices").stdout

    row = next(line for line in told.splitlines() if line.startswith("Gym ") and "." in line[-4:])
    gains = [float(each) for each in row.split()[1:]]
    assert len(gains) == 3
    assert max(gains) == gains[0] > 0


def test_a_closed_room_moves_what_is_in_it_and_nothing_else(club):
    def days(text):
        weeks = text[text.index("First, week") :]
        return [line for line in weeks.splitlines() if line.strip()]

    usual = club("--monday", "2027-02-01").stdout
    told = club("--monday", "2027-02-01", "--closed", "Gym:monday").stdout

    moved = told[: told.index("First, week")]
    gym = told[told.index("Gym, week of") :]
    assert "Closed: Gym on Monday" in moved
    assert "no longer gym on Monday" in moved
    assert "field" not in moved.replace("on the field", "")
    assert "Mon 01 Feb" in usual[usual.index("Gym, week of") :]
    assert "Mon 01 Feb" not in gym
    assert days(told) != days(usual)


def test_what_is_closed_is_kept_and_taken_back(club, tmp_path):
    week, kept = ("--monday", "2027-02-01"), tmp_path / "closed.csv"

    looked = club(*week, "--closed", "Gym:monday")
    assert "--save keeps it" in looked.stderr
    assert not kept.exists()
    saved = club(*week, "--closed", "Gym:monday", "--save")
    assert saved.exit_code == 0, saved.output
    assert kept.read_text() == "date,shared\n2027-02-01,Gym\n"
    later = club(*week)
    assert later.stdout == saved.stdout
    assert "Mon 01 Feb" not in later.stdout.split("Gym, week of")[1]
    more = club(*week, "--closed", "Gym:tuesday", "--save")
    assert "Closed: Gym on Monday, Gym on Tuesday" in more.stdout

    back = CliRunner().invoke(main, ["undo", str(tmp_path)])
    assert "Took back club" in back.stdout
    assert kept.read_text() == "date,shared\n2027-02-01,Gym\n"
    assert CliRunner().invoke(main, ["redo", str(tmp_path)]).exit_code == 0
    assert "2027-02-02,Gym" in kept.read_text()
    kept.write_text(kept.read_text() + "2027-02-09,gym\n")
    club(*week, "--forget")
    assert kept.read_text() == "date,shared\n2027-02-09,gym\n"
    assert "2027-02-09" in CliRunner().invoke(main, ["versions", str(tmp_path), "--compare", "2",
                                                     "5"]).stdout  # fmt: skip


def test_a_row_of_what_is_closed_that_cannot_be_used_is_named(club, tmp_path):
    (tmp_path / "closed.csv").write_text("date,shared\n2027-02-02,Gim\n")

    told = club()

    assert told.exit_code == 1
    assert "closed.csv, line 2, shared: must be one of Gym" in told.stderr


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (("--save",), "say which (--monday)"),
        (("--monday", "2027-02-01", "--closed", "Gim:monday"), "did you mean Gym"),
        (("--monday", "2027-02-01", "--closed", "Gym:someday"), "such as Gym:tuesday"),
        (("--closed", "Gym:monday"), "say which with --monday"),
    ],
)
def test_what_is_closed_must_be_known(club, options, words):
    told = club(*options)

    assert told.exit_code == 2
    assert words in told.stderr


def test_a_week_outside_of_all_seasons_is_refused(club):
    done = club("--monday", "2030-01-07")

    assert done.exit_code == 2
    assert "must lie in a week of some squad's season" in done.output


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('uses = ["gym"]', 'uses = ["sauna"]', "shared[1].uses"),
        ('uses = ["gym"]', 'uses = ["gym"]\nsquads = ["Third"]', "Third"),
        ('name = "Oakhurst"', "name =", "club.toml"),
    ],
)
def test_a_file_that_cannot_be_used_is_refused_in_one_line(club, old, new, words):
    done = club(text=CLUB.replace(old, new))

    assert done.exit_code == 1
    assert words in done.output
    assert "Traceback" not in done.output


WITH_PEOPLE = (
    CLUB
    + """
[[shared]]
name = "Coach <Finch>"
kind = "person"
uses = ["gym"]
squads = ["First"]
"""
)
SQUAD = "name,group,body_mass_kg\nAda,starters,70\nBea,squad,65\n"
AWAY = "athlete,from,to,status\nBea,2027-02-01,2027-02-07,away\n"


@pytest.fixture(scope="module")
def people(tmp_path_factory, plain_plan):
    """Return how to call the command of a club with athletes and a coach, and its folder."""
    tmp_path = tmp_path_factory.mktemp("people")
    club = made_club(tmp_path, plain_plan)
    scenario = tmp_path / "first.toml"
    (tmp_path / "squad.csv").write_text(SQUAD)
    (tmp_path / "availability.csv").write_text(AWAY)
    scenario.write_text(f'squad_file = "squad.csv"\n{scenario.read_text()}')
    plan = json.loads((tmp_path / "first.json").read_text())
    plan["scenario"]["digest"] = read_scenario(scenario).digest
    (tmp_path / "first.json").write_text(json.dumps(plan))
    return club, tmp_path


@pytest.fixture(scope="module")
def written(people):
    """Return the folder of everything that is written for the club."""
    club, path = people
    done = club("-o", str(path / "out"), text=WITH_PEOPLE)
    assert done.exit_code == 0, done.output
    return path / "out"


def events(path):
    """Return the events of a calendar by UID."""
    found = Calendar.from_ical(path.read_bytes()).walk("VEVENT")
    assert len({event["UID"] for event in found}) == len(found)
    return {event["UID"]: event for event in found}


def test_every_squad_room_coach_and_athlete_has_a_page_a_pdf_and_a_calendar(written):
    names = {path.stem for path in written.iterdir()} - {"index"}

    assert names == {
        "squad-first", "squad-second", "room-gym", "person-coach-finch", "athlete-ada",
        "athlete-bea",
    }  # fmt: skip
    for name in names:
        assert (written / f"{name}.pdf").read_bytes().startswith(b"%PDF")
        page = (written / f"{name}.html").read_text()
        assert 'name="viewport"' in page
        assert "http" not in page.replace("http-equiv", "")
    index = (written / "index.html").read_text()
    assert all(f'href="{name}.html"' in index for name in names)
    assert "Coach &lt;Finch&gt;" in index
    assert index.count("<svg") == 2


def test_one_thing_has_one_uid_in_all_calendars_and_keeps_it(people, written, tmp_path):
    club, _ = people
    first, gym = events(written / "squad-first.ics"), events(written / "room-gym.ics")
    coach, ada = events(written / "person-coach-finch.ics"), events(written / "athlete-ada.ics")

    assert ada.keys() == first.keys()
    assert coach.keys() < first.keys()
    assert coach.keys() < gym.keys()
    assert {uid: e["DTSTART"].dt for uid, e in coach.items()} == {
        uid: first[uid]["DTSTART"].dt for uid in coach
    }
    closed = WITH_PEOPLE.replace('uses = ["gym"]\n', 'uses = ["gym"]\nopens = 17:00:00\n', 1)
    club("-o", str(tmp_path / "later"), text=closed)
    later = events(tmp_path / "later" / "squad-first.ics")
    assert later.keys() == first.keys()
    assert [e["DTSTART"].dt for e in later.values()] != [e["DTSTART"].dt for e in first.values()]


def test_an_athlete_who_is_away_has_only_the_matches_of_those_days(written):
    bea = events(written / "athlete-bea.ics").values()
    days = {str(event["DTSTART"].dt)[:10]: str(event["SUMMARY"]) for event in bea}

    assert [told for day, told in days.items() if day < "2027-02-08"] == ["Match (MD)"]
    assert any(day > "2027-02-08" for day in days)


def test_only_some_weeks_are_written_if_asked(club, tmp_path):
    done = club("-o", str(tmp_path / "out"), "--weeks", "1", "--monday", "2027-02-10")

    assert done.exit_code == 0
    days = {str(e["DTSTART"].dt)[:10] for e in events(tmp_path / "out" / "room-gym.ics").values()}
    assert min(days) >= "2027-02-08"
    assert club("--weeks", "2").exit_code == 2


def test_one_week_alone_has_hours_and_no_columns(club, tmp_path):
    club("-o", str(tmp_path / "out"), "--weeks", "1")

    index = (tmp_path / "out" / "index.html").read_text()
    assert "<svg" not in index
    assert "in the fullest" not in index


def test_seasons_stay_where_nothing_is_scarce(club, tmp_path):
    best = {name: _planned(tmp_path, name) for name in ("first", "second")}
    told = club("--seasons", text=CLUB.replace('uses = ["gym"]', 'uses = ["gym"]\nholds = 2'))

    assert told.exit_code == 0, told.output
    assert "Nothing that is shared is scarce" in told.stdout
    assert "set of plans" in told.stdout
    assert {name: (tmp_path / f"{name}.json").read_bytes() for name in best} == best


def test_seasons_that_want_the_same_hours_are_planned_together_applied_and_taken_back(
    club, tmp_path
):
    """One squad is in files of the club, the other in a season folder of its own."""
    folder = tmp_path / "second"
    folder.mkdir()
    (tmp_path / "second.toml").rename(folder / "season.toml")
    assert CliRunner().invoke(main, ["plan", str(folder)]).exit_code == 0
    _planned(tmp_path, "first")
    plans = [tmp_path / "first.json", folder / "plan.json"]
    best = [path.read_bytes() for path in plans]
    narrow = CLUB.replace('uses = ["gym"]', 'uses = ["gym"]\nopens = 17:00:00\ncloses = 17:15:00')
    narrow = narrow.replace('scenario = "second.toml"\nplan = "second.json"', 'scenario = "second"')

    looked = club("--seasons", text=narrow)
    assert looked.exit_code == 0, looked.output
    assert "Gym is scarce in 2 weeks of 2" in looked.stdout
    assert "points to Second" in looked.stdout
    assert "--apply puts these plans in force" in looked.stderr
    assert [path.read_bytes() for path in plans] == best

    assert club("--seasons", "--apply", text=narrow).exit_code == 0
    assert plans[1].read_bytes() != best[1]
    for place in (folder, tmp_path):
        back = CliRunner().invoke(main, ["undo", str(place)])
        assert "seasons together" in back.stdout or "nothing to undo" in back.stdout
    assert [path.read_bytes() for path in plans] == best


def test_a_locked_week_is_the_same_in_the_club_and_in_the_folder_of_its_squad(
    club, tmp_path, plain_plan
):
    folder = tmp_path / "second"
    folder.mkdir()
    (tmp_path / "second.toml").rename(folder / "season.toml")
    (tmp_path / "second.json").rename(folder / "plan.json")
    text = CLUB.replace('scenario = "second.toml"\nplan = "second.json"', 'scenario = "second"')

    def own():
        told = CliRunner().invoke(main, ["week", str(folder), "--week", "1"]).stdout
        return [line for line in told.splitlines() if "Gym:" in line or "Field:" in line]

    alone = own()
    told = club("--monday", "2027-02-01", "--lock", text=text)

    assert told.exit_code == 0, told.output
    assert "Not kept for First: stands alone" in told.stderr
    assert f"Kept for Second in {folder / 'days.csv'}" in told.stderr
    assert own() != alone
    assert set(own()) <= set(told.stdout[told.stdout.index("Second, week 1") :].splitlines())
    assert "as the club has it" in CliRunner().invoke(main, ["undo", str(folder)]).stdout
    assert own() == alone


def test_seasons_end_by_the_time_that_is_given_and_say_so(club, tmp_path, monkeypatch):
    for name in ("first", "second"):
        _planned(tmp_path, name)
    monkeypatch.setattr(Patience, "spent", property(lambda _: 2.0))
    narrow = CLUB.replace('uses = ["gym"]', 'uses = ["gym"]\nopens = 17:00:00\ncloses = 17:15:00')

    told = club("--seasons", "--seconds", "1", text=narrow)

    assert "The time of --seconds is over" in " ".join(told.stdout.split())
    assert "Nothing that is shared is scarce" not in told.stdout
    assert "Nothing is written" not in told.stderr


def test_a_squad_without_a_plan_is_named(club, tmp_path):
    told = club(text=CLUB.replace('\nplan = "second.json"', ""))

    assert told.exit_code == 1
    assert "squads[2].plan: must name the plan of a squad" in told.stderr


def _planned(folder, name):
    """Put a squad's best plan on file, and return that."""
    path = folder / f"{name}.json"
    scenario = str(folder / f"{name}.toml")
    assert CliRunner().invoke(main, ["plan", scenario, "--out", str(path)]).exit_code == 0
    return path.read_bytes()


@pytest.mark.parametrize(
    ("status", "stage", "uses"),
    [("limited", 1, ["gym", "match"]), ("limited", 2, ["field", "gym", "practice", "match"]),
     ("out", None, ["match"]), ("available", None, ["field", "gym", "practice", "match"])],
)  # fmt: skip
def test_the_agenda_of_who_is_on_the_way_back_names_nothing_of_the_squads_work(status, stage, uses):
    day = dt.date(2027, 2, 2)
    entries = tuple(
        AgendaEntry(day, "", f"{9 + at}:00", None, "First", use, f"{use}: Sprint S4", (), (use,))
        for at, use in enumerate(("field", "gym", "practice", "match"))
    )
    entered = AvailabilityEntry(
        athlete="Ada", first=dt.date(2027, 1, 20), status=status, stage=stage, words="knee"
    )
    squad = Agenda("First", "squad", entries)

    (ada,) = athlete_agendas(squad, {"Ada": AthleteHistory(entries=(entered,))}, ())

    assert [entry.use for entry in ada.entries] == uses
    for entry in ada.entries:
        held = entry.use != "match" and "S4" not in entry.what
        assert held or "cleared you" in entry.what or status == "available"


def test_who_is_at_school_has_an_agenda_with_times_of_their_own():
    day = dt.date(2027, 2, 2)
    usual = (
        "MD-4",
        "10:00",
        "11:15",
        "First",
        "gym",
        "Gym: Power",
        ("Gym",),
        ("First", "gym", "1"),
    )
    own = OwnTime(date=day, use="gym", squad="10:00", start="15:30")
    practice = replace(AgendaEntry(day, *usual), use="practice", start="13:00", end="14:00")
    entries = (
        AgendaEntry(day, *usual, own),
        replace(practice, school=OwnTime(date=day, use="practice", squad="13:00")),
    )
    people, gym = (
        {"Ada": AthleteHistory(), "Bea": AthleteHistory()},
        Pool("Gym", frozenset({"gym"})),
    )
    squad = Agenda("First", "squad", entries)
    ada, bea = athlete_agendas(squad, people, {"Ada"})

    assert bea.entries == entries
    team, alone = ada.entries
    assert (alone.times, alone.what) == (
        "15:30-16:45",
        "Gym: Power (own time); under 18: less and lighter, as on your card",
    )
    assert (team.times, team.what) == ("13:00-14:00", "Gym: Power (in hours of school)")
    assert alone.key != entries[0].key
    times = [each.times for each in pool_agenda(gym, "room", [squad]).entries if each.use == "gym"]
    assert times == ["10:00-11:15", "15:30-16:45"]
