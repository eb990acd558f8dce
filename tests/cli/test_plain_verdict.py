import datetime as dt

import pytest
from click.testing import CliRunner

from cli.files.plan_json import read_document
from cli.files.scenario_file import read_scenario
from cli.files.scenario_rules import read_rules
from cli.main import main
from cli.render.plain_verdict import verdict_sentences
from cli.report.report import make_report
from optimiser.domain.document import to_plan
from optimiser.explain.prices.helps import Before
from optimiser.joint_model.effort import Settings
from optimiser.review.score import readiness

LEAGUE = """\
name = "Crowded"
first_monday = 2026-09-07
weeks = 14
"""
#: Every other day of a month, the last of them the one that matters.
DAYS = [(day, "high" if day == 29 else "low") for day in range(1, 31, 2)]


def run(*arguments):
    return CliRunner().invoke(main, [*map(str, arguments)])


def write(folder, days):
    rows = [
        f'{{ date = 2026-10-{day:02d}, opponent = "R", priority = "{rank}" }}' for day, rank in days
    ]
    path = folder / "crowded.toml"
    path.write_text(LEAGUE + f"fixtures = [ {', '.join(rows)} ]\n")
    return path


@pytest.fixture(scope="module")
def poor(tmp_path_factory):
    """A season that no plan can be good for: its scenario, its plan and what was printed."""
    folder = tmp_path_factory.mktemp("poor")
    path = write(folder, DAYS)
    result = run("plan", path, "--out", folder / "plan.json")
    assert result.exit_code == 0, result.output
    return path, folder / "plan.json", " ".join(result.stdout.split())


def test_a_poor_plan_is_called_poor_at_the_top_with_the_reason(poor):
    path, _, said = poor

    assert said.startswith("A POOR PLAN: planned readiness reaches ")
    assert "at R (week 8). In " in said
    assert f"`seasonwright prices {path}` says what each rule costs." in said


def test_nobody_is_told_to_loosen_what_keeps_people_safe(poor):
    _, _, said = poor

    helps = said.partition("What would help most: ")[2].partition("`")[0]
    assert not any(rule in helps for rule in ("spacing", "taper", "congestion", "reentry"))


def test_what_would_help_is_kept_with_the_plan_and_could_be_had(poor):
    path, saved, said = poor
    document = read_document(saved)
    without = next(each for each in document.helps if each.match)
    fewer = [(day, rank) for day, rank in DAYS if dt.date(2026, 10, day) != without.match]
    loaded = read_scenario(path)
    plan = to_plan(document, loaded.season)
    now = readiness(loaded.season, plan)[0][without.week - 1]

    other = read_scenario(write(path.parent, fewer))
    before = Before(other.season, read_rules(other), plan, without.week - 1, 0, Settings())

    assert f"leaving out the match of {without.match:%a} {without.match.day} Oct" in said
    assert without.points >= 0.5
    assert before.ready() - now >= without.points - 0.01
    write(path.parent, DAYS)


def test_the_pages_say_it_at_the_top(poor):
    path, saved, _ = poor

    told = run("report", path, saved, "--html", "-o", path.parent / "pages")

    assert told.exit_code == 0, told.output
    page = (path.parent / "pages" / "report.html").read_text(encoding="utf-8")
    top = page.partition("<nav")[0]
    assert "A POOR PLAN: planned readiness reaches" in top
    assert "leaving out the match of" in top


def test_the_sheet_to_print_says_what_would_help_too(poor):
    path, saved, _ = poor
    loaded = read_scenario(path)
    document = read_document(saved)

    word = make_report(loaded, read_rules(loaded), to_plan(document, loaded.season), document).word

    assert word.startswith("A POOR PLAN: ")
    assert "leaving out the match of" in " ".join(word.split())
    assert len(word.splitlines()) <= 3


def test_many_matches_ranked_high_are_called_too_many(tmp_path):
    rows = "".join(f'{{ date = 2026-10-{day:02d}, priority = "high" }},' for day in (3, 10, 17, 24))
    path = tmp_path / "all_high.toml"
    path.write_text(LEAGUE + f"fixtures = [ {rows} ]\n")

    said = " ".join(run("plan", path, "--format", "table").stdout.split())

    assert "4 matches are ranked high, where a side can be at its best for a few" in said


TWO = """\
name = "Two peaks"
first_monday = 2026-08-31
weeks = 7
fixtures = [ { date = 2026-10-03, opponent = "Tolland", priority = "high" },
             { date = 2026-10-17, opponent = "Ashby Vale", priority = "high" } ]
"""


def test_a_last_great_match_that_is_the_worst_is_told_with_the_question_to_ask(tmp_path):
    """The words are made from a plan's file, in which the last match is turned for the worse."""
    path, out = tmp_path / "two.toml", tmp_path / "plan.json"
    path.write_text(TWO)
    assert run("plan", path, "--out", out).exit_code == 0
    document = read_document(out)
    *before, last = document.weeks

    def verdict(readiness):
        weeks = [*before, last.model_copy(update={"readiness": readiness})]
        changed = document.model_copy(update={"weeks": tuple(weeks)})
        return " ".join(verdict_sentences(changed, []))

    first = next(week.readiness for week in before if week.fixtures)
    assert "is the worst prepared" not in verdict(last.target)
    told = verdict(min(first, last.target) - 5)
    assert "The last great match, Ashby Vale (week 7), is the worst prepared" in told
    assert "`why` with --week 7 --readiness" in told
