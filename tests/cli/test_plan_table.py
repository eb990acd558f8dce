import datetime as dt
import re

import pytest

from cli.render.breaches import breach_line, breaches_text
from cli.render.care import season_care_text
from cli.render.limits import limits_text
from cli.render.plan_table import WIDTH, heading, plan_table
from cli.render.signs import PLAIN, RICH, signs_for
from optimiser.domain.document import BreachPart
from optimiser.domain.fixture import Priority
from optimiser.domain.quality import Dose
from optimiser.explain.limits import Limit, StepUp, Stop, Way
from optimiser.review.describe import describe


@pytest.fixture
def document(impossible, plain_plan, usual_rules):
    plan = plain_plan(impossible.season, rung=3, dose=Dose.REDUCED)
    return describe(
        impossible.season, plan, usual_rules, None, digest=impossible.digest, seed=0, versions={}
    )


def rows(text):
    """Return the rows of weeks by week number."""
    found = re.findall(r"^ +(\d+)  +\d+ [A-Z][a-z]{2}  .*$", text, re.MULTILINE)
    lines = [line for line in text.splitlines() if re.match(r" +\d+  +\d+ [A-Z][a-z]{2}  ", line)]
    return dict(zip(map(int, found), lines, strict=True))


def test_there_is_one_row_a_week(document, impossible):
    assert list(rows(plan_table(document, impossible.season, RICH))) == list(range(1, 17))


def test_a_row_says_date_phase_match_readiness_load_sessions_and_bands(document, impossible):
    row = rows(plan_table(document, impossible.season, PLAIN))[13].split()
    week = document.weeks[12]

    assert row[:8] == [
        "13", "29", "Mar", "in", "H5", "95", f"{week.readiness:.0f}", str(week.load.total)
    ]  # fmt: skip
    assert row[8:] == [
        "1/1", "S4", "##-", "R4", "##-", "P4", "##-", "W4", "##-", "M4", "##-", "G4", "##-", "DT"
    ]  # fmt: skip


def test_a_closed_week_shows_no_work_and_why(document, impossible):
    row = rows(plan_table(document, impossible.season, PLAIN))[11]

    assert row.split()[3:] == ["in", f"{document.weeks[10].readiness:.0f}", "0", "rest"]


def test_blocks_are_headed_by_their_weeks_phase_and_dates(document, impossible):
    text = plan_table(document, impossible.season, PLAIN)

    assert "\nblock 4: weeks 13-16, in-season, 2027-03-29 to 2027-04-25\n  13  " in text
    assert "\nclosed\n  11  " in text


def test_some_weeks_only_keep_their_numbers_and_blocks(document, impossible):
    text = plan_table(document, impossible.season, PLAIN, first=8, last=10)

    assert list(rows(text)) == [8, 9, 10]
    assert "block 2: weeks 5-8" in text
    assert "High and medium" not in text


def test_high_matches_are_listed_with_what_is_reached(document, impossible):
    text = plan_table(document, impossible.season, PLAIN)
    ready = document.weeks[12].readiness

    line = next(line for line in text.splitlines() if line.startswith("  H5 "))
    assert "Sun 2027-04-04  Brant Heath, Cup final" in line
    assert line.endswith(f"week 13  planned readiness {ready:.1f}, target 95")


def test_the_table_fits_the_width(document, impossible):
    text = plan_table(document, impossible.season, RICH)

    assert max(map(len, text.splitlines())) <= WIDTH


def wider(season, document, count):
    """The same season with qualities added, as copies of the first under new names."""
    extra = [
        season.qualities[0].model_copy(
            update={"key": f"more_{number}", "name": f"Extraordinary {n}"}
        )
        for number, n in enumerate("abcdef"[: count - len(season.qualities)])
    ]
    grown = season.model_copy(
        update={
            "qualities": (*season.qualities, *extra),
            "emphasis": (*season.emphasis, *[season.emphasis[0]] * len(extra)),
        }
    )
    weeks = tuple(
        week.model_copy(
            update={
                "qualities": {
                    **week.qualities,
                    **{quality.key: week.qualities["sprint"] for quality in extra},
                }
            }
        )
        for week in document.weeks
    )
    return grown, document.model_copy(update={"weeks": weeks})


@pytest.mark.parametrize("count", [7, 8, 9])
def test_more_qualities_still_fit_the_width_with_every_band(document, impossible, count):
    season, grown = wider(impossible.season, document, count)

    text = plan_table(grown, season, RICH)

    assert max(map(len, text.splitlines())) <= WIDTH
    assert rows(text)[1].count("S4") == count - 5


def test_plain_signs_need_no_more_than_ascii(document, impossible):
    assert plan_table(document, impossible.season, PLAIN).isascii()


@pytest.mark.parametrize(
    ("encoding", "plain", "signs"),
    [
        ("utf-8", False, RICH),
        ("utf-8", True, PLAIN),
        ("cp1252", False, PLAIN),
        (None, False, PLAIN),
    ],
)
def test_signs_follow_what_the_terminal_can_show(encoding, plain, signs):
    assert signs_for(encoding, plain=plain) is signs


def test_signs_that_steer_a_terminal_are_taken_out_of_names(document, impossible):
    fixtures = document.weeks[12].fixtures
    evil = fixtures[0].model_copy(update={"opponent": "Brant\x1b[31m\nHeath"})
    weeks = list(document.weeks)
    weeks[12] = weeks[12].model_copy(update={"fixtures": (evil,)})

    text = plan_table(document.model_copy(update={"weeks": tuple(weeks)}), impossible.season, PLAIN)

    assert "\x1b" not in text
    assert "Brant [31m Heath" in text


LIMIT = Limit(
    week=12,
    priority=Priority.HIGH,
    target=95.0,
    readiness=71.26,
    match_cost=4.04,
    closed=2,
    back=0,
    tried=20,
    free=3,
    stopped_by=(
        Stop("congestion", 2, 2, 1.5),
        Stop("taper", 12, 3, 0.5),
        Stop("reentry", 9),
        Stop("budget", 1),
    ),
    most=(
        Way(StepUp(0, range(8, 13), "band"), 3, 1.26, ("taper",), elsewhere=7, loss=0.52),
        Way(StepUp(4, range(11, 12), "dose"), 2, 0.44, ("budget", "reentry")),
        Way(StepUp(1, range(11, 12), "dose"), 3, 0.14, ()),
    ),
)


def test_a_limit_says_week_match_shortfall_and_rules(impossible):
    text = " ".join(limits_text(impossible.season, [LIMIT]).split())

    assert "Week 13, high match (Brant Heath): planned readiness 71.3, target 95." in text
    assert (
        "Earlier matches and travel cost 4.0 points. A break of 2 weeks ended just before." in text
    )
    match = impossible.season.weeks[7].fixtures[-1].name
    assert (
        "One step more would bring most: Sprint S4 instead of S3 in weeks 9-13 (1.3 points), which "
        f"taper stops and which takes 0.5 from {match} (week 8); Maximal strength reduced instead "
        "of touch in week 12 (0.4 points), which budget and reentry stop."
    ) in text
    assert (
        "In the way alone, most first: congestion, taper. Only beside others: reentry, budget"
        in text
    )


def test_a_season_on_target_has_no_limits_to_tell(impossible):
    assert "within a point of its target" in limits_text(impossible.season, [])


def breach(**changes):
    given = {"rule": "taper", "week": 3, "excess": 1, "unit": "minutes", "words": "week 3 is long"}
    return BreachPart(**(given | changes))


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({}, "week 3 is long (by 1 min)"),
        ({"excess": 12}, "week 3 is long (by 12 min)"),
        ({"unit": "times"}, "week 3 is long"),
    ],
)
def test_a_breach_says_by_how_much(changes, line):
    assert breach_line(breach(**changes)) == line


def test_breaches_are_grouped_by_rule():
    text = breaches_text([breach(), breach(rule="rest"), breach()])

    assert text.splitlines()[0] == "3 breaches:"
    assert [line.count("week 3 is long") for line in text.splitlines()[1:]] == [0, 1, 1, 0, 1]


def test_care_names_long_breaks_and_the_first_day_of_care_once(impossible, minimal):
    assert "After the break before week 13" in season_care_text(impossible.season)
    assert "After the break" not in season_care_text(minimal.season)


def test_dates_of_a_block_are_its_first_monday_and_last_sunday(document, impossible):
    text = plan_table(document, impossible.season, PLAIN)

    spans = re.findall(r"block \d+: .*, (\S+) to (\S+)", text)
    assert spans
    assert all(
        (dt.date.fromisoformat(first).weekday(), dt.date.fromisoformat(last).weekday()) == (0, 6)
        for first, last in spans
    )


def test_days_of_several_matches_are_told_as_days(document, impossible):
    season = impossible.season
    days = len(season.fixtures)

    many = heading(document, season.model_copy(update={"matches": days + 3}))

    assert f", {days + 3} matches on {days} day" in many
    assert " on " not in heading(document, season).splitlines()[0]
