"""Sessions pinned, moved and kept off days in a season folder: by command, undone, read by all."""

from icalendar import Calendar

from tests.season.conftest import invoke

TODAY = ("--today", "2027-01-30")


def week(club, *options, number=5):
    return invoke("week", club.path, "--week", number, *TODAY, *options)


def days_of(text, thing):
    """Return the days whose rows hold a thing."""
    found, day = [], ""
    for line in text.splitlines():
        day = line[:3] if line[:3].strip() else day
        if f"{thing}:" in line:
            found.append(day)
    return found


def test_what_is_saved_stands_in_the_folder_and_all_files_follow_it(club, tmp_path):
    first = days_of(week(club).stdout, "Gym")
    day = {"Mon": "monday", "Tue": "tuesday", "Wed": "wednesday", "Thu": "thursday"}[first[0]]

    asked = week(club, "--off", f"gym:{day}")
    assert first[0] not in days_of(asked.stdout, "Gym")
    assert "Changed by what is asked:" in asked.stdout
    assert f"- no longer gym on {day.title()}" in asked.stdout
    assert not club.days.exists()

    saved = week(club, "--off", f"gym:{day}", "--save")
    assert saved.exit_code == 0, saved.output
    assert club.days.read_text().splitlines()[0] == "date,what,ask,at"
    then = days_of(week(club).stdout, "Gym")
    assert then == days_of(saved.stdout, "Gym")
    assert "Changed by" not in week(club).stdout

    report = invoke("report", club.path, "-o", tmp_path / "out", *TODAY, "--ics")
    assert report.exit_code == 0, report.output
    calendar = Calendar.from_ical(next((tmp_path / "out").glob("*.ics")).read_bytes())
    gyms = [e.decoded("DTSTART") for e in calendar.walk("VEVENT") if "Gym session" in e["SUMMARY"]]
    there = {f"{start:%a}" for start in gyms if f"{start:%Y-%m-%d}" >= "2027-03-01"
             and f"{start:%Y-%m-%d}" <= "2027-03-07"}  # fmt: skip
    assert there == set(then)


def test_it_is_taken_back_and_forgotten(club):
    usual = week(club).stdout
    week(club, "--lock", "--save")
    assert len(club.days.read_text().splitlines()) > 3
    assert week(club).stdout == usual

    assert invoke("undo", club.path, *TODAY).exit_code == 0
    assert not club.days.exists()
    week(club, "--off", "gym:monday", "--save")
    week(club, "--forget")
    assert club.days.read_text() == "date,what,ask,at\n"
    assert week(club).stdout == usual


def test_a_session_is_moved_and_the_later_word_on_a_day_counts(club):
    week(club, "--hold", "gym:tuesday", "--save")
    week(club, "--move", "gym:tuesday=thursday@18:00", "--save")

    assert club.days.read_text().splitlines()[1:] == [
        "2027-03-02,gym,off,",
        "2027-03-04,gym,on,18:00",
    ]
    assert "18:00" in week(club).stdout


def test_bad_words_are_one_line_each(club):
    assert "must name both days" in week(club, "--move", "gym:friday").stderr
    club.days.write_text("date,what,ask,at\n2027-03-02,gim,on,\n")
    assert "line 2, what: must be one of field, gym, practice (got" in week(club).stderr
    club.days.write_text("date,what,ask,at\n2028-03-02,gym,on,\n")
    assert "line 2, date: must lie in the season" in week(club).stderr


def test_nothing_is_kept_for_a_week_that_is_over(club):
    told = invoke("week", club.path, "--week", 1, "--today", "2027-03-10", "--off", "gym:monday",
                  "--save")  # fmt: skip

    assert told.exit_code == 2
    assert "which is over" in told.stderr
    assert not club.days.exists()


def test_a_scenario_that_stands_alone_keeps_nothing(club):
    alone = club.path / "other.toml"
    alone.write_text(club.scenario.read_text())

    told = invoke("week", alone, club.plan, "--week", 5, "--off", "gym:monday", "--save")

    assert told.exit_code == 2
    assert "stands alone" in told.stderr
