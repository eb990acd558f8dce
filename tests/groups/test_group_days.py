"""The days that groups share, from the saved plans to every command that shows them."""

import datetime as dt
import json
import re

import pytest
from click.testing import CliRunner

from cli.main import main

NAMES = ("starters", "non-playing", "returning")
WEEKS = range(1, 8)


def run(command, *arguments):
    result = CliRunner().invoke(main, [command, *map(str, arguments)])
    assert result.exit_code == 0, result.output
    return result


@pytest.fixture
def folder(short_folder):
    return short_folder[0]


@pytest.fixture
def told(short_folder):
    """What `groups` prints; its plans are in the folder then."""
    return short_folder[1].stdout


def document(folder, name):
    return json.loads((folder / "plans" / f"{name}.json").read_text())


def saved(folder, name, week):
    days = document(folder, name)["weeks"][week - 1]["days"]
    return [
        (part["date"], part["place"], part["work"]) for part in days if part["place"] != "practice"
    ]


def practised(folder, week):
    """Return the days of practice by group, as saved and as shown."""
    for name in NAMES:
        days = document(folder, name)["weeks"][week - 1]["days"]
        plan = folder / "plans" / f"{name}.json"
        told = run("week", folder / "short.toml", plan, "--week", week, "--format", "json").stdout
        yield [part["date"] for part in days if part["place"] == "practice"]
        yield [day["date"] for day in json.loads(told)["days"] if day["practice"]]


def shown(folder, name, week):
    plan = folder / "plans" / f"{name}.json"
    made = json.loads(
        run("week", folder / "short.toml", plan, "--week", week, "--format", "json").stdout
    )
    assert made["faults"] == []
    return [
        (day["date"], session["place"], [work["quality"] for work in session["work"]])
        for day in made["days"]
        for session in day["sessions"]
    ]


def without_work(sessions):
    return [(date, place) for date, place, _ in sessions]


def test_the_saved_days_are_those_week_shows_for_every_group(folder, told):
    for name in NAMES:
        for week in WEEKS:
            assert sorted(shown(folder, name, week)) == sorted(saved(folder, name, week))


def test_every_group_that_is_there_has_its_sessions_on_the_same_days(folder, told):
    for week in WEEKS:
        found = {
            tuple(without_work(saved(folder, name, week)))
            for name in NAMES
            if name != "returning" or week > 3
        }
        assert len(found) == 1
    assert all(saved(folder, "returning", week) == [] for week in (1, 2, 3))


def test_the_team_practises_on_the_same_days_whatever_group_is_asked(folder, told):
    found = list(practised(folder, 5))

    assert found[0]
    assert all(days == found[0] for days in found)


def test_the_cards_of_every_group_have_the_same_days(folder, told):
    plans = ("--plans", folder / "plans", "--squad", folder / "grouped.csv")
    result = run("cards", folder / "short.toml", *plans, "--week", 5, "--format", "json")
    cards = json.loads(result.stdout)["cards"]

    found = [[(s["date"], s["place"]) for s in card["week"]["sessions"]] for card in cards]
    assert [sorted(each) for each in found] == [
        sorted(without_work(saved(folder, name, 5))) for name in NAMES
    ]


def test_the_printed_summary_has_the_days_that_are_saved(folder, told):
    row = next(line for line in told.splitlines() if line.lstrip().startswith("1  31 Aug"))
    names = {"2026-08-31": "Mon", "2026-09-01": "Tue", "2026-09-02": "Wed", "2026-09-03": "Thu",
             "2026-09-04": "Fri", "2026-09-05": "Sat"}  # fmt: skip
    days = [f"{names[date]}" for date, place in without_work(saved(folder, "starters", 1))]

    assert "Days of the sessions, the same for every group:" in told
    assert all(day in row for day in days)


def test_the_calendar_of_a_group_has_the_days_that_are_saved(folder, told):
    out = folder / "report"
    plan = folder / "plans" / "non-playing.json"
    run("report", folder / "short.toml", plan, "-o", out, "--ics")

    text = next(out.glob("*.ics")).read_text()
    dates = {
        date.replace("-", "") for week in WEEKS for date, *_ in saved(folder, "non-playing", week)
    }
    assert all(f"DTSTART:{date}T" in text for date in dates)


def test_a_plan_whose_days_were_taken_out_is_placed_alone_and_says_so(folder, told, tmp_path):
    bare = document(folder, "starters")
    for week in bare["weeks"]:
        del week["days"]
    path = tmp_path / "bare.json"
    path.write_text(json.dumps(bare))

    text = run("week", folder / "short.toml", path, "--week", 5).stdout

    assert "are not in the plan" in text


def test_a_day_that_is_no_date_is_refused_in_one_line(folder, told, tmp_path):
    changed = document(folder, "starters")
    changed["weeks"][4]["days"][0]["date"] = "Tuesday"
    path = tmp_path / "changed.json"
    path.write_text(json.dumps(changed))

    result = CliRunner().invoke(
        main, ["week", str(folder / "short.toml"), str(path), "--week", "5"]
    )

    assert result.exit_code == 1
    assert "weeks[5].days[1].date" in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1


def test_a_match_that_a_group_does_not_play_is_marked(folder, told):
    plan = folder / "plans" / "non-playing.json"

    text = run("week", folder / "short.toml", plan, "--week", 5).stdout

    assert "Brookmere Autumn, non-playing, week 5" in text
    assert re.search(r"this group\s+(\d+\s+)?does\s+(\d+\s+)?not\s+(\d+\s+)?play", text)


def test_plans_that_were_not_found_together_are_told_by_cards(folder, told, tmp_path):
    plans = tmp_path / "plans"
    plans.mkdir()
    for name in NAMES:
        made = document(folder, name)
        if name == "starters":
            for part in made["weeks"][4]["days"]:
                part["date"] = str(dt.date.fromisoformat(part["date"]) + dt.timedelta(days=1))
        (plans / f"{name}.json").write_text(json.dumps(made))
    more = ("--squad", folder / "grouped.csv", "--week", 5)

    apart = run("cards", folder / "short.toml", "--plans", plans, *more)
    together = run("cards", folder / "short.toml", "--plans", folder / "plans", *more)

    assert "not the same days in week 5" in apart.stderr
    assert together.stderr == ""
