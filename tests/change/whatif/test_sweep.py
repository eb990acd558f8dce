import csv
import io
import json

import pytest
from click.testing import CliRunner

from cli.main import main
from constraints.load import load_rules
from optimiser.batch.case import make_case
from optimiser.batch.engine import Crew
from optimiser.batch.row import Result
from optimiser.change import sweep as module
from optimiser.change.sweep import Point, sweep


def point(season, **tables):
    values = tuple((f"{rule}.{key}", v) for rule, t in tables.items() for key, v in t.items())
    case = make_case(season, load_rules(tables, season), tables, rules_name="point")
    return Point(values, case)


@pytest.fixture
def asked(monkeypatch, short_plan):
    """Stands in for the searches: notes what is asked, answers with one plan or a clash."""
    seen = []

    def plan_many(cases, base, crew, load):
        for case in cases:
            up = next(rule.up for rule in case.loaded if rule.name == "progression")
            seen.append(up)
            if up < 2:
                yield case.key, Result(status="clash")
            else:
                yield case.key, Result(status="proven", gap=0.0, plan=short_plan)

    monkeypatch.setattr(module, "plan_many", plan_many)
    return seen


def swept(short, short_plan, points):
    found = list(sweep(short.season, points, short_plan, Crew(1), load_rules))
    return sorted(found, key=lambda each: each.index)


def test_a_plan_of_a_looser_point_settles_the_tighter_ones_that_it_keeps(short, short_plan, asked):
    points = [point(short.season, progression={"up": up}) for up in (2, 3, 4)]

    found = swept(short, short_plan, points)

    assert asked == [4]
    assert [each.source for each in found] == [2, 2, None]
    assert all(each.result.plan == short_plan for each in found)


def test_a_tighter_point_that_the_plan_breaks_is_searched(short, short_plan, asked):
    tight = {"field": 0, "gym": 0}
    points = [
        point(short.season, progression={"up": 3}),
        point(short.season, progression={"up": 3}, session_caps={"pre_season": tight}),
    ]

    found = swept(short, short_plan, points)

    assert asked == [3, 3]
    assert found[1].source is None


def test_a_clash_of_a_looser_point_is_one_of_every_tighter(short, short_plan, asked):
    loose = {"up": 1}
    points = [
        point(short.season, progression=loose, taper={"allowance": 0}),
        point(short.season, progression=loose, taper={"allowance": 50}),
        point(short.season, progression=loose, taper={"allowance": 100}),
    ]

    found = swept(short, short_plan, points)

    assert asked == [1]
    assert [each.result.status for each in found] == ["clash"] * 3
    assert [each.source for each in found] == [2, 2, None]


def test_equal_points_are_searched_once(short, short_plan, asked):
    points = [point(short.season, progression={"up": 2}) for _ in range(2)]

    found = swept(short, short_plan, points)

    assert asked == [2]
    assert found[1].source == 0


def run(*arguments):
    return CliRunner().invoke(main, ["sweep", *map(str, arguments)])


@pytest.fixture(scope="module")
def grid(short_file, tmp_path_factory):
    out = tmp_path_factory.mktemp("sweep") / "grid.csv"
    result = run(
        short_file, "--grid", "progression.up=1,2", "--grid", "session_caps.pre_season.gym=0..1",
        "--out", out, "--jobs", 1, "--format", "json",
    )  # fmt: skip
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout), list(csv.DictReader(io.StringIO(out.read_text())))


def test_every_point_is_in_the_table_with_those_that_clash(grid):
    points = grid[0]["points"]

    values = [(p["progression.up"], p["session_caps.pre_season.gym"]) for p in points]
    assert values == [(1, 0), (1, 1), (2, 0), (2, 1)]
    assert {p["status"] for p in points if p["session_caps.pre_season.gym"] == 0} == {"clash"}
    assert all(p["match"] is not None for p in points if p["status"] != "clash")


def test_a_looser_point_is_never_worse_where_it_has_proven_the_tighter(grid):
    points = {p["point"]: p for p in grid[0]["points"]}

    for each in points.values():
        if each["same_as"]:
            assert points[each["same_as"]]["match"] == each["match"]


def test_the_file_has_the_same_rows(grid):
    data, rows = grid

    assert [row["status"] for row in rows] == [p["status"] for p in data["points"]]
    assert [row["progression.up"] for row in rows] == ["1", "1", "2", "2"]


@pytest.mark.parametrize(
    ("text", "code", "said"),
    [
        ("progression", 2, "must be RULE.PARAMETER=VALUE"),
        ("progression.up=99", 1, "--grid progression.up=99"),
        ("progression.upp=1", 1, "is not a key that is known"),
        ("pace.up=1", 1, "must be the name of a rule"),
        ("progression.up=1..5000", 2, "1 to 1000 values"),
    ],
)
def test_what_is_no_grid_is_refused(short_file, text, code, said):
    result = run(short_file, "--grid", text)

    assert result.exit_code == code
    assert said in result.stderr


def test_an_unknown_kind_of_file_is_refused_before_any_search(short_file):
    result = run(short_file, "--grid", "progression.up=1", "--out", "x.xls")

    assert result.exit_code == 2
    assert "must end in .csv or .json" in result.stderr
