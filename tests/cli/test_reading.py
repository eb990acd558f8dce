import pytest

from cli.files.errors import InputError
from cli.files.scenario_file import load_scenario, read_scenario
from optimiser.domain.fixture import Priority

HEAD = 'name = "Testers"\nfirst_monday = 2026-08-31\nweeks = 12\n'
MATCH = '[[fixtures]]\ndate = 2026-10-10\nopponent = "Ferrow Hill"\n'
CSV = "date,opponent,priority\n2026-10-10,Ferrow Hill,high\n2026-10-17,Saltmere,\n"


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "fixtures.csv").write_text(CSV)
    return tmp_path


def write(folder, text):
    path = folder / "season.toml"
    path.write_text(text)
    return path


def refused(folder, text):
    with pytest.raises(InputError) as caught:
        read_scenario(write(folder, text))
    return caught.value.format_message()


def test_four_lines_and_a_fixture_list_make_a_season(folder):
    loaded = read_scenario(write(folder, HEAD + 'fixtures_file = "fixtures.csv"\n'))

    assert [fixture.opponent for fixture in loaded.season.fixtures] == ["Ferrow Hill", "Saltmere"]
    assert loaded.season.weeks_with(Priority.HIGH) == [5]
    assert len(loaded.season.qualities) == 6


def test_inline_and_filed_fixtures_are_one_list(folder):
    text = HEAD + 'fixtures_file = "fixtures.csv"\n' + MATCH.replace("10-10", "10-03")

    loaded = read_scenario(write(folder, text))

    assert [fixture.date.day for fixture in loaded.season.fixtures] == [3, 10, 17]


def test_priorities_by_date_beat_the_fixture_list(folder):
    text = HEAD + 'fixtures_file = "fixtures.csv"\n[priorities]\n2026-10-17 = "medium"\n'

    loaded = read_scenario(write(folder, text))

    assert [fixture.priority for fixture in loaded.season.fixtures] == ["high", "medium"]


def test_the_digest_knows_the_season_and_not_the_files(folder):
    filed = read_scenario(write(folder, HEAD + 'fixtures_file = "fixtures.csv"\n'))
    inline = HEAD + MATCH + 'priority = "high"\n' + MATCH.replace("10-10", "10-17")
    inline = inline.replace('date = 2026-10-17\nopponent = "Ferrow Hill"', "date = 2026-10-17")
    same = load_scenario(inline + 'opponent = "Saltmere"\n', folder / "other.toml")
    moved = load_scenario(
        (inline + 'opponent = "Saltmere"\n').replace("10-17", "10-18"), folder / "x"
    )

    assert filed.digest == same.digest
    assert moved.digest != same.digest


def test_a_rules_table_is_kept_as_written_and_counts_in_the_digest(folder):
    plain = read_scenario(write(folder, HEAD + MATCH))
    ruled = read_scenario(write(folder, HEAD + MATCH + "[rules.taper]\nweeks = 3\n"))

    assert ruled.scenario.rules == {"taper": {"weeks": 3}}
    assert ruled.digest != plain.digest


def test_a_missing_file_is_named(tmp_path):
    with pytest.raises(InputError, match=r"nowhere\.toml: must exist") as caught:
        read_scenario(tmp_path / "nowhere.toml")

    assert caught.value.exit_code == 1


def test_a_folder_is_not_a_scenario(tmp_path):
    with pytest.raises(InputError, match="got a folder"):
        read_scenario(tmp_path)


def test_a_missing_fixtures_file_is_named(folder):
    said = refused(folder, HEAD + 'fixtures_file = "gone.csv"\n')

    assert "gone.csv: must exist" in said


def test_text_that_is_not_toml_is_told_with_its_line(folder):
    said = refused(folder, 'name = "Testers"\nweeks == 3\n')

    assert "line 2: must be TOML" in said


BANDS = 'bands = [{code="A", label="a", gain=1, strian=2}, {code="B", label="b", gain=1}]'


@pytest.mark.parametrize(
    ("text", "place", "meant"),
    [
        (HEAD.replace("weeks", "wekes") + MATCH, "line 3, wekes", "weeks"),
        (
            f"{HEAD}{MATCH}[practice.in_season]\nminuts = 60\n",
            "line 8, practice.in_season.minuts",
            "minutes",
        ),
        (
            f"{HEAD}{MATCH}[qualities.sprint]\n{BANDS}\n",
            "qualities.sprint.bands[1].strian",
            "strain",
        ),
    ],
)
def test_an_unknown_key_is_answered_with_the_nearest(folder, text, place, meant):
    said = refused(folder, text)

    assert f"{place}: is not a key that is known" in said
    assert f"Did you mean {meant}?" in said


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('weeks = "fifty"', 'weeks: must be a whole number (got "fifty")'),
        ("weeks = 0", "weeks: must be at least 1 (got 0)"),
        ("weeks = 261", "weeks: must be at most 260 (got 261)"),
        ("weeks = true", "weeks: must be a number (got true)"),
        ("weeks = []", "weeks: must be a whole number (got a list of 0)"),
    ],
)
def test_a_wrong_length_is_told(folder, line, told):
    said = refused(folder, HEAD.replace("weeks = 12", line) + MATCH)

    assert told in said
    assert "line 3" in said


def test_a_first_day_that_is_no_monday_is_answered_with_the_nearest(folder):
    said = refused(folder, HEAD.replace("08-31", "09-03") + MATCH)

    assert "a Thursday" in said
    assert "The nearest Monday is 2026-08-31" in said


def test_a_fixture_outside_the_season_is_told_with_its_line(folder):
    (folder / "fixtures.csv").write_text(CSV + "\n2027-10-10,Late,\n")

    said = refused(folder, HEAD + 'fixtures_file = "fixtures.csv"\n')

    assert "fixtures.csv, line 5, date: must lie in the season, 2026-08-31 to 2026-11-22" in said


def test_two_fixtures_on_one_day_are_one_event(folder):
    (folder / "fixtures.csv").write_text(CSV + "2026-10-17,Wexcombe,\n")
    path = folder / "two.toml"
    path.write_text(HEAD + 'fixtures_file = "fixtures.csv"\n')

    season = read_scenario(path).season

    assert [f.opponent for f in season.fixtures if f.date.day == 17] == ["Saltmere and Wexcombe"]


def test_a_fixtures_file_without_fixtures_is_refused(folder):
    (folder / "fixtures.csv").write_text("date,opponent\n")

    assert "at least one fixture" in refused(folder, HEAD + 'fixtures_file = "fixtures.csv"\n')


def test_a_quality_written_twice_is_told_with_its_line(folder):
    text = HEAD + MATCH + "[qualities.sprint]\nweight = 1\n[qualities.sprint]\nweight = 2\n"

    said = refused(folder, text)

    assert "line 9: must be TOML" in said
    assert "Write each key and each table once" in said


def test_a_ladder_of_one_band_is_refused(folder):
    text = HEAD + MATCH + '[qualities.sprint]\nbands = [{code="A", label="a", gain=1}]\n'

    said = refused(folder, text)

    assert "line 8, qualities.sprint.bands: must have at least 2 entries" in said


def test_a_negative_dose_is_refused(folder):
    said = refused(folder, HEAD + MATCH + "[qualities.sprint.doses.full]\nminutes = -30\n")

    assert "line 8, qualities.sprint.doses.full.minutes" in said
    assert "(got -30)" in said


def test_a_negative_amount_of_a_band_is_refused(folder):
    band = '{code="A", label="a", gain=1, amounts={contacts=-4}}'
    text = HEAD + MATCH + f"[qualities.plyometrics]\nbands = [{band}, {band}]\n"

    assert "bands[1].amounts.contacts: must be at least 0" in refused(folder, text)


def test_doses_that_do_not_rise_are_refused(folder):
    said = refused(folder, HEAD + MATCH + "[qualities.sprint.doses.full]\nminutes = 12\n")

    assert "minutes must rise" in said
    assert "[10, 20, 12]" in said


def test_text_that_is_not_utf8_is_told_with_its_line(folder):
    path = folder / "season.toml"
    path.write_bytes(b'# fine\nname = "Caf\xe9"\n')

    with pytest.raises(InputError, match=r"line 2: must be text in UTF-8 \(got byte 0xe9"):
        read_scenario(path)


def test_a_file_of_ten_megabytes_is_refused_by_size(folder):
    path = folder / "season.toml"
    path.write_bytes(b"#" * 10_000_000)

    with pytest.raises(InputError, match=r"at most 5 MB \(got 10\.0 MB\)"):
        read_scenario(path)


def test_a_byte_order_mark_does_no_harm(folder):
    path = folder / "season.toml"
    path.write_bytes(b"\xef\xbb\xbf" + (HEAD + MATCH).encode())

    assert read_scenario(path).season.name == "Testers"


def test_a_break_that_misses_the_season_is_refused(folder):
    text = HEAD + MATCH + '[[breaks]]\nkind = "rest"\nfirst = 2025-12-20\nlast = 2026-01-02\n'

    assert "breaks[1]: must touch the season" in refused(folder, text)


def test_a_priority_for_a_day_without_a_match_is_refused(folder):
    text = HEAD + '[priorities]\n2026-10-11 = "high"\n' + MATCH

    assert "2026-10-11, on which there is none" in refused(folder, text)


def test_a_deep_nest_of_brackets_is_no_crash(folder):
    said = refused(folder, HEAD + "x = " + "[" * 20000)

    assert "must be TOML" in said


def test_a_week_set_by_hand_outside_the_season_is_refused(folder):
    said = refused(folder, HEAD + MATCH + "[targets.by_week]\n13 = 50\n")

    assert "targets.by_week must lie in weeks 1 to 12 (got week 13)" in said


@pytest.mark.parametrize("junk", ["name = 3", "fixtures = 4", "[match]\nrpe = nan", "match = []"])
def test_odd_values_end_in_a_message_and_not_a_crash(folder, junk):
    kept = "\n".join(line for line in HEAD.splitlines() if line.split()[0] != junk.split()[0])

    assert "season.toml, line " in refused(folder, kept + "\n" + junk + "\n")
