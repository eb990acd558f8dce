import datetime as dt

import pytest
from matplotlib.figure import Figure

from cli.render.pictures.batch import MOST, batch_chart
from cli.render.pictures.comparison import change_words, changed_weeks, comparison_chart
from cli.render.pictures.lanes import break_name
from cli.render.pictures.ramp import ramp_limits
from cli.render.pictures.save import inline_svg, png_bytes, svg_bytes
from cli.render.pictures.season import season_chart
from cli.render.pictures.text import UNKNOWN, drawable
from cli.render.pictures.theme import PAGE, PRINT, contrast, ladder_colour, luminance, text_on
from cli.render.pictures.wall import Name, place_names, wall_chart
from cli.render.pictures.week_page import DayLines, WeekLines, week_page
from cli.report.page_file import page_text
from cli.report.printout import printout_bytes
from constraints.load_ramp import LoadRamp
from optimiser.batch.row import BatchRow
from optimiser.domain.fixture import Priority


def words(figure):
    """Return all text of a figure."""
    return [text.get_text() for text in figure.findobj(lambda each: hasattr(each, "get_text"))]


def test_the_chart_names_every_quality_block_and_great_match(small):
    said = words(season_chart(small.document, small.season, small.rules))

    for quality in small.season.qualities:
        assert quality.name in said
    assert {"block 1", "block 2"} <= set(said)
    assert any("Southlea" in each and "8 May" in each for each in said)


def test_each_stretch_of_a_band_carries_its_code(small):
    said = words(season_chart(small.document, small.season, small.rules))
    codes = {part.band for week in small.document.weeks for part in week.qualities.values()}

    for code in codes - {None}:
        assert any(each.split()[:1] == [code] for each in said), code


def test_fixtures_are_told_apart_by_shape_and_by_size(reported, tmp_path):
    text = (
        'name = "Shapes"\nfirst_monday = 2027-02-01\nweeks = 8\nfixtures = [\n'
        '{ date = 2027-02-20, priority = "high" },\n{ date = 2027-02-27, priority = "medium" },\n'
        '{ date = 2027-03-06, priority = "low" },\n'
        '{ date = 2027-03-20, priority = "peak" },\n]\n'
    )
    made = reported(text, tmp_path / "shapes.toml")
    figure = season_chart(made.document, made.season)
    lane = next(axes for axes in figure.axes if any("high" in t.get_text() for t in axes.texts))
    marks = {
        (line.get_marker(), line.get_markersize())
        for line in lane.lines
        if line.get_marker() not in ("", "None", None)
    }

    assert len({shape for shape, _ in marks}) == len(Priority)
    assert len({size for _, size in marks}) == len(Priority)


def test_every_picture_can_be_saved_and_is_the_same_twice(small):
    first, second = (season_chart(small.document, small.season, small.rules) for _ in range(2))

    assert svg_bytes(first) == svg_bytes(second)
    assert png_bytes(first, dots=40).startswith(b"\x89PNG")


def test_a_part_of_the_season_can_be_drawn(small):
    said = words(season_chart(small.document, small.season, first=3, last=6))

    assert {"3", "6"} <= set(said)
    assert "7" not in said


def test_hard_names_are_drawn_without_a_word_of_warning(hard):
    png_bytes(season_chart(hard.document, hard.season, hard.rules), dots=40)
    png_bytes(comparison_chart(hard.document, hard.document, hard.season), dots=40)
    assert printout_bytes(hard).startswith(b"%PDF")


def test_a_sign_no_font_has_becomes_a_box_and_dollars_stay_dollars():
    assert drawable("Foxes \U0001f98a") in ("Foxes \U0001f98a", f"Foxes {UNKNOWN}")
    assert drawable("$x^2$") == "$x^2$"
    assert drawable("a\nb\tc\u202ed") == "a b c d"


# --- colours --------------------------------------------------------------------------------


def test_ladders_run_from_dark_to_light_so_that_grey_print_keeps_their_order():
    steps = [luminance(ladder_colour(step / 11)) for step in range(12)]

    assert steps == sorted(steps)
    assert len(set(steps)) == 12


@pytest.mark.parametrize("step", range(12))
def test_codes_can_be_read_on_every_rung(step):
    colour = ladder_colour(step / 11)

    assert contrast(colour, text_on(colour)) >= 4.5


def test_print_text_can_be_read_on_paper():
    for colour in (PRINT.ink, PRINT.soft, PRINT.accent):
        assert contrast(colour, PRINT.paper) >= 4.5


def test_a_picture_in_a_page_takes_the_pages_colours(small):
    svg = inline_svg(season_chart(small.document, small.season, theme=PAGE), "x-")

    assert "var(--ink)" in svg
    assert PAGE.ink not in svg
    assert 'id="x-' in svg
    assert "<metadata" not in svg


def test_ids_of_a_page_differ(small):
    import re

    page = page_text(small)
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))


# --- load ramp ------------------------------------------------------------------------------


def test_a_week_is_above_the_drawn_limit_just_where_the_rule_is_broken(small):
    for percent, allowance in ((0, 0), (10, 50), (20, 300)):
        rule = LoadRamp(percent=percent, allowance=allowance, floor=0)
        broken = {breach.week + 1 for breach in rule.audit(small.plan, small.season)}
        limits = ramp_limits(small.document, [rule])
        above = {
            week.week
            for week, limit in zip(small.document.weeks, limits, strict=True)
            if limit is not None and week.load.total > limit
        }
        assert above == broken


def test_without_the_rule_nothing_limits_the_load(small):
    assert set(ramp_limits(small.document, [])) == {None}


# --- comparison -----------------------------------------------------------------------------


@pytest.fixture
def changed(small):
    """The small plan with one band raised in week 5 and one dose cut in week 6."""
    weeks = list(small.document.weeks)
    for index, key, update in (
        (4, "sprint", {"rung": weeks[4].qualities["sprint"].rung + 1, "band": "S9"}),
        (5, "power", {"dose": "none" if weeks[5].qualities["power"].dose != "none" else "full"}),
    ):
        part = weeks[index].qualities[key].model_copy(update=update)
        qualities = {**weeks[index].qualities, key: part}
        weeks[index] = weeks[index].model_copy(update={"qualities": qualities})
    return small.document.model_copy(update={"weeks": tuple(weeks)})


def test_only_the_weeks_that_differ_are_marked(small, changed):
    assert changed_weeks(small.document, changed) == [5, 6]
    assert changed_weeks(small.document, small.document) == []


def test_a_raised_band_and_a_changed_dose_have_signs_of_their_own(small, changed):
    was, now = small.document.weeks, changed.weeks

    assert change_words(was[4], now[4], "sprint") == "\u25b2"
    assert change_words(now[4], was[4], "sprint") == "\u25bc"
    assert {change_words(was[5], now[5], "power"), change_words(now[5], was[5], "power")} == {
        "+",
        "\u2212",
    }
    assert change_words(was[5], now[5], "sprint") == ""


def test_the_comparison_says_how_many_weeks_change(small, changed):
    said = words(comparison_chart(small.document, changed, small.season))

    assert any("2 weeks change" in each for each in said)


def test_plans_of_other_weeks_cannot_be_compared(small, hard):
    with pytest.raises(ValueError, match="same weeks"):
        comparison_chart(hard.document, small.document, small.season)


# --- batch ----------------------------------------------------------------------------------


def row(number, **more):
    told = {"status": "proven", "match": 90.0 + number / 10, "at_high": 88.0}
    return BatchRow(season=f"Season {number}", rules="usual", **(told | more))


def test_a_batch_is_drawn_best_first_and_rows_without_a_plan_last():
    rows = [row(1), row(2), BatchRow(season="Lost", rules="usual", status="clash")]
    said = words(batch_chart(rows))
    names = [each.split("  ")[0] for each in said if "\u00b7" in each]

    assert names == ["Season 2", "Season 1", "Lost"]
    assert "rules clash" in said


def test_a_long_batch_says_how_many_are_left_out():
    said = words(batch_chart([row(number % 90) for number in range(MOST + 7)]))

    assert any("7 more are not shown" in each for each in said)


def test_an_empty_batch_and_hard_names_are_drawn(hard_names):
    rows = [
        row(n, match=50.0).model_copy(update={"season": name})
        for n, name in enumerate(hard_names.values())
    ]

    for each in ([], rows):
        figure = batch_chart(each)
        assert isinstance(figure, Figure)
        assert png_bytes(figure, dots=40)


@pytest.mark.parametrize(
    ("left", "end", "begins"), [(3.0, -1.0, 3.0), (9.5, 2.0, 9.0), (3.0, 3.5, None), (-1.0, -2, 0)]
)
def test_the_name_of_a_break_stays_on_the_sheet_and_runs_over_no_other(left, end, begins):
    assert break_name(left, 1.0, end, 10) == begins


def crowded(reported, folder, gap, count=8):
    """Return a report with a match to peak for every ``gap`` days."""
    first = dt.date(2027, 3, 6)
    days = [first + dt.timedelta(days=gap * number) for number in range(count)]
    fixtures = ",\n".join(
        f'{{ date = {day}, opponent = "Club {number}", priority = "high" }}'
        for number, day in enumerate(days)
    )
    head = 'name = "Crowded"\nfirst_monday = 2027-02-01\nweeks = 30\n'
    return reported(f"{head}fixtures = [\n{fixtures}\n]\n", folder / f"crowded{gap}.toml")


@pytest.mark.parametrize("gap", [3, 7, 21])
def test_every_great_match_is_named_however_close_they_are(reported, tmp_path, gap):
    made = crowded(reported, tmp_path, gap)

    said = " ".join(words(season_chart(made.document, made.season)))

    assert all(f"Club {number}" in said for number in range(8))


def test_the_wall_chart_is_large_enough_to_read_from_afar(reported, tmp_path):
    made = crowded(reported, tmp_path, 21)
    figure = wall_chart(made.document, made.season)

    texts = [text for axes in figure.axes for text in axes.texts if text.get_text()]
    finals = [text.get_fontsize() for text in texts if "Club" in text.get_text()]
    assert len(finals) == 8
    assert min(finals) >= 24
    assert min(text.get_fontsize() for text in texts) >= 14


def test_the_wall_chart_names_the_bands(small):
    figure = wall_chart(small.document, small.season)
    said = [" ".join(each.split()) for each in words(figure)]

    for quality in small.season.qualities:
        held = {week.qualities[quality.key].band for week in small.document.weeks}
        assert any(each.split()[:1] == [code] for code in held - {None} for each in said)


@pytest.mark.parametrize("days", [[10, 14], [0, 2, 4, 44], [30, 44], [20, 28, 34, 44]])
def test_no_name_on_the_wall_chart_lies_on_another_or_on_a_line_if_there_is_a_way(days):
    names = [Name(x, min(x, 36.0), min(x, 36.0) + 9) for x in days]
    placed = list(zip(names, place_names(names), strict=True))

    for one, row in placed:
        for other, at in placed:
            if one is not other:
                assert not (row == at and one.meets(other))
                assert not (row > at and one.hides(other))


def test_every_note_of_a_week_stands_on_its_page_to_the_end(small):
    notes = tuple(f"Note {number}: {'a long caution ' * 12}ends {number}." for number in range(4))
    days = tuple(DayLines(f"Day {day}", "MD-1", ("",), 0, match=False) for day in range(7))
    part = small.document.weeks[3]
    week = WeekLines(part, "Week 4", "in-season", days, notes)

    figure = week_page([week], small.season.qualities, "foot")

    told = " ".join(text.get_text() for text in figure.axes[0].texts)
    assert all(f"ends {number}." in told for number in range(4))
