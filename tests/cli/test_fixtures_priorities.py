import datetime as dt

import pytest
from click.testing import CliRunner

from cli.commands.new import new_command
from cli.files.fixtures_notices import season_notices
from cli.files.fixtures_priorities import is_friendly, proposals
from cli.files.scenario_file import read_scenario
from constraints.taper import Taper
from optimiser.domain.fixture import Fixture, Priority
from optimiser.domain.season import Phase

START = dt.date(2026, 9, 5)


def match(week=0, competition="", day=0, **more):
    date = START + dt.timedelta(weeks=week, days=day)
    return Fixture(date=date, competition=competition, **more)


def made(folder, rows, *options):
    path = folder / "matches.csv"
    path.write_text("date,opponent,competition\n" + "".join(f"{row}\n" for row in rows))
    output = folder / "season.toml"
    arguments = ["--fixtures", str(path), "-o", str(output), *options]
    result = CliRunner().invoke(new_command, arguments)
    assert result.exit_code == 0, result.output
    return result, read_scenario(output)


@pytest.mark.parametrize(
    ("words", "priority"),
    [
        ("County Cup final", "high"),
        ("Pokalfinale", "high"),
        ("Halbfinale", "high"),
        ("Viertelfinale", "medium"),
        ("Kreispokal", "medium"),
        ("Semi-final", "high"),
        ("League semifinal", "high"),
        ("Cup quarter-final", "medium"),
        ("County cup", "medium"),
        ("Play-off", "medium"),
        ("League", None),
        ("Friendly cup", None),
        ("Pre-season final", None),
        ("Finalists league", None),
    ],
)
def test_words_propose_a_priority(words, priority):
    assert [item.priority for item in proposals([match(0, words)])] == [priority] * bool(priority)


def test_the_name_counts_too():
    assert proposals([Fixture(date=START, opponent="Cup final v Saltmere")])[0].priority == "high"


@pytest.mark.parametrize("words", ["Friendly", "FRIENDLIES", "Pre-season", "Practice match"])
def test_a_friendly_is_known_by_its_words(words):
    assert is_friendly(match(0, words))


def test_a_friendly_that_is_given_a_priority_is_none():
    assert not is_friendly(match(0, "Friendly", priority=Priority.HIGH))


def test_proposals_stand_marked_in_the_scenario_and_are_told(tmp_path):
    result, loaded = made(tmp_path, ["2026-09-12,A,Cup final", "2026-09-05,B,League"])

    assert [fixture.priority for fixture in loaded.season.fixtures] == ["low", "high"]
    text = (tmp_path / "season.toml").read_text()
    assert '2026-09-12 = "high"  # proposed: Cup final, A' in text
    assert "proposed high: Sat 2026-09-12, by its words: Cup final, A" in result.stderr
    assert "was made high" not in result.output + text


def test_a_list_with_priorities_gets_no_proposals(tmp_path):
    path = tmp_path / "matches.csv"
    path.write_text("date,competition,priority\n2026-09-12,Cup final,medium\n")
    output = tmp_path / "season.toml"

    result = CliRunner().invoke(new_command, ["--fixtures", str(path), "-o", str(output)])

    assert "proposed" not in result.output
    assert read_scenario(output).scenario.priorities == {}


def test_in_season_starts_at_the_first_match_that_is_no_friendly(tmp_path):
    rows = ["2026-08-22,A,Friendly", "2026-09-05,B,League", "2026-09-12,C,League"]

    _, loaded = made(tmp_path, rows)

    phases = [week.phase for week in loaded.season.weeks]
    assert phases == [Phase.OFF] * 4 + [Phase.PRE] * 6 + [Phase.IN] * 2
    assert loaded.season.weeks[8].fixtures[0].opponent == "A"


def test_early_friendlies_make_pre_season_longer(tmp_path):
    _, loaded = made(
        tmp_path, ["2026-08-22,A,Friendly", "2026-09-05,B,League"], "--pre-season-weeks", "0"
    )

    phases = [week.phase for week in loaded.season.weeks]
    assert phases == [Phase.OFF] * 4 + [Phase.PRE] * 2 + [Phase.IN]


def test_only_friendlies_are_a_pre_season_to_the_end(tmp_path):
    _, loaded = made(tmp_path, ["2026-08-22,A,Friendly"])

    assert loaded.season.weeks[-1].phase is Phase.PRE


def test_what_stands_out_is_told():
    highs = [match(7 * week, priority=Priority.HIGH) for week in range(7)]

    told = season_notices(highs, {})

    assert told[0].startswith("7 match days are high, more than 6")
    assert told[1].startswith("6 weeks without a match from 2026-09-07: a small pre-season")


def test_a_long_gap_is_told_as_what_is_made_of_it():
    told = season_notices([match(), match(9)], {})

    assert told == [
        "8 weeks without a match from 2026-09-07: off-season, then a pre-season of 4 weeks"
    ]
    assert season_notices([match(), match(4)], {}) == []


def test_two_close_highs_share_a_peak_as_the_rule_taper_has_it():
    both = [match(), match(Taper().same_peak)]
    high = dict.fromkeys((match.date for match in both), Priority.HIGH)

    assert "they share a peak" in season_notices(both, high)[0]
    assert season_notices(both, {}) == []
    apart = dict.fromkeys((match().date, match(4).date), Priority.HIGH)
    assert season_notices([match(), match(4)], apart) == []


def test_a_crowded_week_is_told():
    week = [match(day=-5), match(day=-3), match()]

    assert season_notices(week, {}) == ["3 match days in the week from 2026-08-31"]


def test_a_weekend_of_many_matches_is_not_called_crowded():
    weekend = [match(day=-1)] * 3 + [match()] * 3

    assert [line for line in season_notices(weekend, {}) if "in the week" in line] == []


def test_a_season_without_a_week_off_is_told():
    weekly = [match(week) for week in range(16)]

    assert "a match in each of 16 weeks in a row from 2026-08-31" in season_notices(weekly, {})[0]
    assert season_notices(weekly[1:], {}) == []


def test_the_phases_are_told_with_their_friendlies_before_anything_is_written(tmp_path):
    rows = ["2026-08-15,A,Testspiel", "2026-08-22,B,Friendly", "2026-09-05,C,League"]

    result, _ = made(tmp_path, rows)

    said = "pre-season from 2026-07-20 (with 2 friendlies), in-season from 2026-08-31"
    assert said in result.stderr
    assert result.output.index(said) < result.output.index("Wrote ")
    text = " ".join((tmp_path / "season.toml").read_text().replace("#", "").split())
    assert said in text


def test_of_several_matches_on_a_day_the_highest_proposal_stands(tmp_path):
    rows = ["2026-09-05,A,Quarter-final", "2026-09-05,B,Final", "2026-09-05,C,Cup"]

    result, loaded = made(tmp_path, rows)

    assert loaded.season.fixtures[0].priority == "high"
    assert result.stderr.count("proposed ") == 1
    assert "3 matches on 1 day." in result.output
