import json

import pytest

from cli.files.errors import InputError
from cli.files.plan_csv import plan_csv
from cli.files.plan_file import read_plan
from optimiser.domain.quality import Dose
from optimiser.review.audit import structure
from optimiser.review.describe import describe

HEAD = "week,quality,band,dose"


@pytest.fixture
def document(minimal, plain_plan, usual_rules):
    plan = plain_plan(minimal.season, rung=1)
    return describe(
        minimal.season, plan, usual_rules, None, digest=minimal.digest, seed=0, versions={}
    )


@pytest.fixture
def rows(minimal):
    """One row a week and quality: rung 2, a touch."""
    return [
        f"{week.number},{key},2,touch"
        for week in minimal.season.weeks
        for key in minimal.season.keys
    ]


@pytest.fixture
def read(tmp_path, minimal, usual_rules):
    """Read lines as a plan file of the smallest season."""

    def reading(lines, name="plan.csv", **options):
        path = tmp_path / name
        path.write_text(lines if isinstance(lines, str) else "\n".join(lines) + "\n")
        return read_plan(path, minimal, usual_rules, **options)

    return reading


def refused(read, lines, name="plan.csv"):
    with pytest.raises(InputError) as caught:
        read(lines, name)
    return caught.value.paragraph().split("plan.", 1)[1]


# --- JSON -----------------------------------------------------------------------------------


def test_json_reads_back_as_the_same_plan(read, document, minimal, plain_plan):
    assert read(document.model_dump_json(), "plan.json") == plain_plan(minimal.season, rung=1)


def test_a_plan_of_another_season_is_refused_and_told_how_to_use_it_all_the_same(read, document):
    other = document.model_copy(
        update={"scenario": document.scenario.model_copy(update={"digest": "ab" * 32})}
    )

    said = refused(read, other.model_dump_json(), "plan.json")

    assert "as it stood before" in said
    assert "--other-season" in said
    assert read(other.model_dump_json(), "plan.json", other_season=True).weeks == 14


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{", "json, line 1: must be JSON"),
        ("[]", 'json, format: must be "seasonwright.plan/1" (got a list of 0)'),
        ('{"format": "other/3"}', 'must be "seasonwright.plan/1" (got "other/3")'),
        ('{"format": "seasonwright.plan/1"}', "json, scenario: must be given"),
        ("[" * 100_000, "must be JSON of a usual kind"),
        ('{"format": ' + "9" * 5000 + "}", "must be JSON of a usual kind"),
    ],
)
def test_what_is_no_plan_document_is_refused(read, text, said):
    assert said in refused(read, text, "plan.json")


def test_a_wrong_value_in_json_is_named_by_its_place(read, document):
    data = json.loads(document.model_dump_json())
    data["weeks"][2]["qualities"]["power"]["dose"] = "plenty"

    said = refused(read, json.dumps(data), "plan.json")

    assert said.startswith("json, weeks[3].qualities.power.dose: must")
    assert '(got "plenty")' in said


def test_another_kind_of_file_is_refused(read):
    assert "must end in .json, .csv" in refused(read, "", "plan.doc")


# --- CSV ------------------------------------------------------------------------------------


def test_our_own_csv_reads_back_as_the_same_plan(read, document, minimal, plain_plan):
    assert read(plan_csv(document)) == plain_plan(minimal.season, rung=1)


def test_bands_may_be_codes_or_rungs_and_qualities_keys_or_names(read, rows, minimal):
    rows[0:2] = ["1,Sprint,s4,FULL", "1,resisted_sprint,R2,none"]

    plan = read([HEAD, *rows])

    assert (plan.rungs[0][0], plan.rungs[1][0]) == (3, 1)
    assert (plan.doses[0][0], plan.doses[1][0]) == (Dose.FULL, Dose.NONE)


def test_semicolons_and_any_order_of_rows_will_do(read, rows):
    lines = ["week;quality;band;dose", *(row.replace(",", ";") for row in reversed(rows))]

    assert read(lines) == read([HEAD, *rows])


def test_blocks_start_where_a_band_changes(read, rows):
    rows = [row.replace(",2,", ",3,") if row.startswith("6,power") else row for row in rows]

    assert read([HEAD, *rows]).starts == (0, 5, 6)


def test_a_block_column_says_where_blocks_start(read, rows):
    blocks = [f"{row},{'a' if int(row.split(',')[0]) < 9 else 'b'}" for row in rows]

    assert read([f"{HEAD},block", *blocks]).starts == (0, 8)


def test_a_quality_that_rests_keeps_its_band(read, rows):
    rows = [row.replace(",2,touch", ",,none") if row.startswith("6,power") else row for row in rows]

    plan = read([HEAD, *rows])

    assert plan.rungs[3][5] == 1
    assert plan.starts == (0,)


def test_sessions_left_out_are_the_fewest_that_hold_the_work(read, rows):
    touch = read([HEAD, *rows])
    full = read([HEAD, *(row.replace("touch", "full") for row in rows)])

    assert (touch.field[0], touch.gym[0]) == (1, 1)
    assert (full.field[0], full.gym[0]) == (2, 2)


def test_sessions_given_in_one_row_count_for_the_week(read, rows):
    rows = [f"{row},3" if row.startswith("2,power") else f"{row}," for row in rows]

    assert read([f"{HEAD},gym", *rows]).gym[:3] == (1, 3, 1)


def test_closed_weeks_need_no_rows(tmp_path, impossible, usual_rules):
    season = impossible.season
    lines = [
        f"{week.number},{key},2,touch"
        for week in season.weeks
        if not week.closed
        for key in season.keys
    ]
    path = tmp_path / "plan.csv"
    path.write_text("\n".join([HEAD, *lines]))

    plan = read_plan(path, impossible, usual_rules)

    assert plan.starts == (0, 12)
    assert plan.rungs[0][9:13] == (1, None, None, 1)


def test_work_in_a_closed_week_is_read_so_that_the_audit_finds_it(
    tmp_path, impossible, usual_rules
):
    season = impossible.season
    lines = [f"{week.number},{key},2,touch" for week in season.weeks for key in season.keys]
    path = tmp_path / "plan.csv"
    path.write_text("\n".join([HEAD, *lines]))

    plan = read_plan(path, impossible, usual_rules)

    assert plan.doses[0][10] is Dose.TOUCH
    assert {10, 11} <= {b.week for b in structure(season, plan)}


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("15,sprint,2,touch", "csv, line 2, week: must be a whole number from 1 to 14 (got 15)"),
        ("one,sprint,2,touch", "csv, line 2, week: must be a whole number"),
        (",sprint,2,touch", "csv, line 2, week: must be given"),
        ("1,sprnt,2,touch", "csv, line 2, quality: must be one of sprint, resisted_sprint"),
        ("1,sprint,9,touch", "csv, line 2, band: must be one of S1, S2, S3, S4, S5 or 1 to 5"),
        ("1,sprint,,touch", "csv, line 2, band: must be given"),
        ("1,sprint,2,lots", "csv, line 2, dose: must be none, touch, reduced or full (got lots)"),
        ("1,sprint,2,", "csv, line 2, dose: must be given"),
        ("1,sprint,2,touch,7", "csv, line 2: must have at most 4 cells"),
        ('1,sprint,2,"touch', "csv: must be a CSV table"),
    ],
)
def test_a_wrong_cell_is_named_by_its_line(read, rows, line, said):
    assert said in refused(read, [HEAD, line, *rows[1:]])


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("", "no week"),
        ("week,quality,band", "line 1: the first line must name the columns"),
        ("week,quality,band,does", "did you mean dose?"),
        ("week,quality,band,dose,dose", "a column must come once"),
    ],
)
def test_a_wrong_head_is_refused(read, rows, head, said):
    assert said.lower() in refused(read, [head, *rows]).lower()


def test_a_row_left_out_is_missed(read, rows):
    assert "none for week 2 power" in refused(read, [HEAD, *rows[:9], *rows[10:]])


def test_a_row_that_comes_twice_is_refused(read, rows):
    assert "line 3: a quality must come once a week" in refused(read, [HEAD, rows[0], *rows])


def test_rows_of_a_week_that_disagree_are_refused(read, rows):
    rows = [f"{row},{2 if row.startswith('2,power') else 1}" for row in rows]

    assert "must be the same in every row of week 2" in refused(read, [f"{HEAD},gym", *rows])


def test_a_monday_of_another_season_is_refused(read, rows):
    said = refused(read, [f"{HEAD},monday", f"{rows[0]},2019-01-07", *rows[1:]])

    assert "line 2, monday: must be 2027-02-01" in said
