import json

import pytest
from click.testing import CliRunner

from cli.commands.week import week_command
from cli.files.scenario_file import load_scenario, read_scenario
from cli.render.terminal import WIDTH
from optimiser.domain.quality import Dose
from optimiser.review.describe import describe

MATCHES = """
name = "Days"
first_monday = 2027-02-01
weeks = 3
fixtures = [
    { date = 2027-02-06, opponent = "Southlea", kickoff = "15:00" },
    { date = 2027-02-13, opponent = "Stanwick Vale \\u001b[31m", kickoff = "15:00" },
    { date = 2027-02-20, opponent = "Cobbleford", priority = "high" },
]
"""


@pytest.fixture
def season(tmp_path):
    """Write a scenario of three weeks and a plan for it, with more lines for the scenario."""

    def write(more="", plan=None, dose=Dose.REDUCED):
        scenario = tmp_path / "season.toml"
        scenario.write_text(MATCHES + more)
        loaded = read_scenario(scenario)
        made = plan(loaded.season, rung=3, dose=dose)
        document = describe(
            loaded.season, made, [], None, digest=loaded.digest, seed=0, versions={}
        )
        (tmp_path / "plan.json").write_text(document.model_dump_json())
        return str(scenario), str(tmp_path / "plan.json")

    return write


def run(files, week, *more):
    return CliRunner().invoke(week_command, [*files, "--week", str(week), *more])


def days(result):
    return json.loads(result.stdout)["days"]


def test_every_day_is_shown_with_its_name_by_the_matches_around_it(season, plain_plan):
    result = run(season(plan=plain_plan), 2)

    assert result.exit_code == 0, result.output
    order = ["MD+2", "MD-4", "MD-3", "MD-2", "MD-1", "Match 15:00 against Stanwick", "MD+1"]
    places = [result.stdout.index(name) for name in order]
    assert places == sorted(places)


def test_lines_fit_and_hold_no_signs_that_steer_a_terminal(season, plain_plan):
    result = run(season(plan=plain_plan), 2)

    assert max(map(len, result.stdout.splitlines())) <= WIDTH
    assert "\x1b" not in result.stdout


def test_care_is_said_once(season, plain_plan):
    assert run(season(plan=plain_plan), 1).stdout.count("Care:") == 1


def test_json_holds_what_the_table_shows(season, plain_plan):
    files = season(plan=plain_plan)
    told = days(run(files, 2, "--format", "json"))

    assert [day["label"] for day in told][:2] == ["MD+2", "MD-4"]
    assert told[5]["match"]["kickoff"] == "15:00"
    work = {w["quality"] for day in told for s in day["sessions"] for w in s["work"]}
    assert work == set(load_scenario(MATCHES, files[0]).season.keys)


def test_practice_stands_on_the_users_weekdays(season, plain_plan):
    more = '\n[practice.in_season]\ndays = ["monday", "wednesday", "friday"]\nminutes = 60\n'
    told = days(run(season(more, plain_plan), 2, "--format", "json"))

    assert [day["weekday"] for day in told if day["practice"]] == ["monday", "wednesday", "friday"]
    assert {day["practice"]["load"] for day in told if day["practice"]} == {300}


def test_weekdays_of_practice_do_not_make_another_season(tmp_path):
    texts = [
        MATCHES,
        MATCHES + '\n[practice.in_season]\ndays = ["monday", "friday"]\n',
        MATCHES + "\n[kit]\nbar_kg = 15\n",
        MATCHES + "\n[practice.in_season]\nsessions = 3\n",
    ]
    digests = [load_scenario(text, tmp_path / "s.toml").digest for text in texts]

    assert digests[0] == digests[1] == digests[2]
    assert digests[3] != digests[0]


def test_spacings_of_the_scenario_count(season, plain_plan):
    more = '\n[rules.spacing]\nrest_days = ["tuesday", "thursday"]\n'
    told = days(run(season(more, plain_plan), 2, "--format", "json"))

    used = {day["weekday"] for day in told if day["sessions"]}
    assert used <= {"monday", "wednesday"}
    assert [day["kind"] for day in told].count("rest") == 2


def test_what_no_day_can_keep_is_told(season, plain_plan):
    more = "\n[rules.spacing]\nhours_since = 168\n"
    result = run(season(more, plain_plan), 2)

    assert result.exit_code == 0
    assert "Not kept: " in result.stdout


@pytest.mark.parametrize("week", [0, 4, -1])
def test_a_week_outside_the_season_is_bad_usage(season, plain_plan, week):
    result = run(season(plan=plain_plan), week)

    assert result.exit_code == 2
    assert "--week" in result.stderr


def test_a_wrong_weekday_is_told_with_its_line(season, plain_plan, tmp_path):
    files = season(plan=plain_plan)
    (tmp_path / "season.toml").write_text(MATCHES + '\n[practice.in_season]\ndays = ["mondays"]\n')
    result = run(files, 1)

    assert result.exit_code == 1
    assert "line 12" in result.stderr
    assert "mondays" in result.stderr


def test_days_of_a_break_are_shown_as_closed(season, plain_plan):
    more = '\n[[breaks]]\nkind = "rest"\nfirst = 2027-02-08\nlast = 2027-02-09\n'
    result = run(season(more, plain_plan), 2)

    assert result.exit_code == 0, result.output
    assert result.stdout.count("Closed") == 2


def test_a_session_that_is_asked_for_is_on_its_day_at_its_hour(season, plain_plan):
    files = season(plan=plain_plan, dose=Dose.TOUCH)
    asked = ["--hold", "gym:wednesday@18:00", "--off", "practice:wednesday"]
    done = CliRunner().invoke(week_command, [*files, "--week", "2", *asked, "--format", "json"])
    wednesday = json.loads(done.output)["days"][2]

    assert ("gym", "18:00") in [(each["place"], each["start"]) for each in wednesday["sessions"]]
    assert wednesday["practice"] is None


@pytest.mark.parametrize("wrong", ["gym:fryday", "sauna:monday", "gym:monday@25:00", "gym"])
def test_a_demand_that_cannot_be_read_is_refused(season, plain_plan, wrong):
    done = CliRunner().invoke(
        week_command, [*season(plan=plain_plan), "--week", "2", "--hold", wrong]
    )

    assert done.exit_code == 2
    assert "gym:tuesday@18:00" in done.output
