import json
import tomllib

import pytest
from click.testing import CliRunner
from fit_squads import listed, squad

from cli.main import main
from optimiser.domain.scenario import Scenario
from optimiser.setup.qualities import laid_over, quality_tables


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(folder, record, key="power", name="tests.csv"):
    """Write the files of a squad and return what the command is given."""
    results, loads = listed(record)
    rows = [f"{row.date},{key},{row.value:.4f}" for row in results]
    (folder / name).write_text("\n".join(["date,quality,result", *rows]) + "\n")
    log = [f"{row.date},{row.value:.2f}" for row in loads]
    (folder / "log.csv").write_text("\n".join(["date,load", *log]) + "\n")
    return [name, "--load", "log.csv"]


def fit(*words):
    return CliRunner().invoke(main, ["fit", *map(str, words)])


def test_it_prints_the_estimate_with_its_interval(folder):
    done = fit(*write(folder, squad(0)))

    assert done.exit_code == 0
    assert "power" in done.stdout
    assert "Refused" not in done.stdout


def test_the_piece_of_a_scenario_can_be_laid_over_the_defaults(folder):
    done = fit(*write(folder, squad(0)), "--out", "mine.toml")
    piece = tomllib.loads((folder / "mine.toml").read_text())

    scenario = Scenario(name="x", first_monday="2026-01-05", weeks=10, **piece)
    power = quality_tables(scenario)["power"]

    assert done.exit_code == 0
    assert 30 < power["tau_fitness"] < 50
    assert power == laid_over(
        quality_tables(Scenario(name="x", first_monday="2026-01-05", weeks=10))["power"],
        piece["qualities"]["power"],
    )


def test_json_holds_the_numbers_of_the_table(folder):
    done = fit(*write(folder, squad(0)), "--format", "json")
    found = json.loads(done.stdout)["power"]

    assert found["intervals"]["tau_fitness"][0] < found["tau_fitness"]
    assert found["error"]["model"] < found["error"]["naive"]


def test_a_sprint_time_falls_as_it_gets_better(folder):
    record = squad(0)
    times = type(record)(record.loads, record.days, 10 - record.results / 20)
    words = write(folder, times, key="sprint")

    assert fit(*words).exit_code == 1
    assert fit(*words, "--lower", "sprint").exit_code == 0


def test_what_the_data_cannot_carry_is_refused_with_reasons_and_no_file(folder):
    done = fit(*write(folder, squad(0, tests=10)), "--out", "mine.toml")

    assert done.exit_code == 1
    assert "too few tests: 10" in done.stdout
    assert not (folder / "mine.toml").exists()


def test_toml_on_stdout_has_the_refusals_on_stderr(folder):
    done = fit(*write(folder, squad(0, tests=10)), "--format", "toml")

    assert tomllib.loads(done.stdout) == {}
    assert "too few tests" in done.stderr


def test_one_file_may_hold_tests_and_load(folder):
    results, loads = listed(squad(0))
    rows = [f"{row.date},power,{row.value:.4f}," for row in results]
    rows += [f"{row.date},power,,{row.value:.2f}" for row in loads]
    (folder / "both.csv").write_text("\n".join(["date,quality,result,load", *rows]))

    assert fit("both.csv").exit_code == 0


def test_without_any_load_it_says_what_to_give(folder):
    words = write(folder, squad(0))

    done = fit(words[0])

    assert done.exit_code == 1
    assert "--load" in done.stderr
    assert "Traceback" not in done.output


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "line 1"),
        ("date,result\n2026-01-05,3", "no quality"),
        ("date,quality,resultt\n", "Did you mean result?"),
        ("date,quality,result,result\n", "result twice"),
        ("date,quality,result\n2026-13-05,power,3", "line 2, date"),
        ("date,quality,result\n05.01.2026,power,3", "line 2, date"),
        ("date,quality,result\n2026-01-05,power,3.1 cm", "line 2, result"),
        ('date,quality,result\n2026-01-05,power,"3,1"', "Write 3.1"),
        ("date,quality,result\n2026-01-05,POWER!,3", "line 2, quality"),
        ("date,quality,result\n2026-01-05,,3", "line 2, quality"),
        ("date,quality,result\n,power,3", "line 2, date"),
        ("date,quality,result\n2026-01-05,power,", "result or a load"),
        ("date,quality,result\n2026-01-05,power,3,4", "at most 3 cells"),
        ("date,quality,result\n1026-01-05,power,3\n2026-01-05,power,3", "ten years"),
        ("date,quality,result\n2026-01-05,power,1e9", "result"),
        ("date,quality,result\n", "at least one result"),
        ('date,quality,result\n"2026-01-05,power,3', "CSV"),
    ],
)
def test_a_file_that_cannot_be_used_is_told_where_and_why(folder, text, said):
    (folder / "tests.csv").write_text(text)

    done = fit("tests.csv")

    assert done.exit_code == 1
    assert "tests.csv" in done.stderr
    assert said in done.stderr


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("date,load\n2026-01-05,", "line 2, load"),
        ("date,load\n2026-01-05,-3", "0 to 20000"),
        ("day,load\n", "columns must be among"),
    ],
)
def test_a_log_that_cannot_be_used_is_told_where_and_why(folder, text, said):
    words = write(folder, squad(0))
    (folder / "log.csv").write_text(text)

    done = fit(*words)

    assert done.exit_code == 1
    assert "log.csv" in done.stderr
    assert said in done.stderr


def test_a_quality_that_has_no_results_cannot_be_lower(folder):
    done = fit(*write(folder, squad(0)), "--lower", "sprint")

    assert done.exit_code == 2


def test_semicolons_and_a_quality_of_its_own_are_read(folder):
    words = write(folder, squad(0), key="Grip Strength")
    text = (folder / "tests.csv").read_text().replace(",", ";")
    (folder / "tests.csv").write_text(text)

    assert "grip_strength" in fit(*words).stdout
