"""Session cards on paper and on phones, opened and looked at."""

import io

import pytest
from click.testing import CliRunner

from cli.commands.report import report_command
from cli.render.cards_data import sheets
from cli.render.pictures.card_box import Box, draw_card
from cli.report.cards_page import cards_page
from cli.report.cards_print import cards_pdf
from optimiser.athlete.cards import card
from optimiser.athlete.squad import Athlete
from optimiser.domain.quality import Dose
from tests.athlete.card_weeks import choices, week
from tests.chromium_page import chromium, console, requests, sideways, size, violations

LONG = "Wilhelmina Featherstonehaugh-Cholmondeley of the Upper Second"


def made(name, rung=3, **fields):
    lifts = {"squat": {"one_rm_kg": 120}, "bench_press": {"load_kg": 60, "reps": 5}}
    who = Athlete(name=name, group="squad", body_mass_kg=70, lifts=lifts, **fields)
    return card(who, choices(rung, Dose.FULL), week(Dose.FULL))


CARDS = (
    made("Ada Merrow"),
    made("<b>Bea</b>", restrictions=[{"tag": "knee"}]),
    made(LONG, 0, age=15),
)


@pytest.mark.parametrize(("layout", "pages"), [("athlete", 3), ("session", 4), ("four", 2)])
def test_every_session_is_on_paper(layout, pages):
    reader = pytest.importorskip("pypdf", reason="needs pypdf (extra dev)").PdfReader
    found = reader(io.BytesIO(cards_pdf(CARDS, "Trial", layout)))
    text = " ".join(" ".join(page.extract_text().split()) for page in found.pages)

    assert len(found.pages) == pages
    assert {tuple(map(round, page.mediabox[2:])) for page in found.pages} == {(595, 842)}
    assert text.count("Pain, dizziness") == 6
    assert text.count("Ada Merrow: ") == 2
    for page in found.pages:
        assert "not a medical device" in " ".join(page.extract_text().split())


def test_the_longest_card_stays_inside_a_quarter_of_a_sheet():
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    box = Box(0.0, 0.0, 3.78, 5.3)
    for sheet in sheets(CARDS):
        figure = Figure(figsize=(3.78, 5.3))
        draw_card(figure, sheet, box)
        drawn = FigureCanvasAgg(figure).get_renderer()
        for text in figure.texts:
            ends = text.get_window_extent(drawn)
            assert ends.x0 >= 0
            assert ends.x1 <= figure.bbox.width, text.get_text()
            assert ends.y0 >= 0, text.get_text()


def test_the_page_keeps_to_itself_and_says_what_names_are():
    page = cards_page(CARDS, "Trial")

    assert "&lt;b&gt;Bea&lt;/b&gt;" in page
    assert "<b>Bea</b>" not in page
    assert "<script" not in page
    assert page.count("Pain, dizziness") == 6
    assert page.count("not a medical device") == 1


def test_a_phone_shows_a_session_without_scrolling_sideways(tmp_path):
    path = tmp_path / "cards.html"
    path.write_text(cards_page(CARDS, "Trial"), encoding="utf-8")
    with chromium() as browser:
        size(browser, 390, 844)
        requests(browser)
        browser.get(path.as_uri())
        asked = requests(browser)
        tall = browser.execute_script(
            "return [...document.querySelectorAll('article')].map(a => a.offsetHeight)"
        )

        assert sideways(browser) == 0
        assert violations(browser) == []
        assert console(browser) == []
        assert asked == [path.as_uri()]
        assert max(tall) <= 1.6 * 844


def test_a_report_holds_the_cards_of_a_week_where_there_is_a_squad(small, tmp_path):
    squad = tmp_path / "squad.csv"
    squad.write_text("name,group,body_mass_kg\nAda Merrow,squad,70\n")
    text = small.loaded.path.read_text()
    scenario = tmp_path / "season.toml"
    scenario.write_text(f'squad_file = "squad.csv"\n{text}')
    for path in small.loaded.path.parent.glob("*.csv"):
        if path.name in text:
            (tmp_path / path.name).write_text(path.read_text())
    plan = tmp_path / "plan.json"
    plan.write_text(small.document.model_dump_json(), encoding="utf-8")
    asked = [str(scenario), str(plan), "-o", str(tmp_path / "out"), "--cards", "--cards-week", "3"]

    result = CliRunner().invoke(report_command, asked)
    assert result.exit_code == 0, result.output
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["cards.html", "cards.pdf"]
    assert "Week 3, " in (tmp_path / "out" / "cards.html").read_text()

    result = CliRunner().invoke(report_command, [*asked[:-1], "999"])
    assert result.exit_code == 2
    assert "--cards-week" in result.stderr


def test_a_report_asked_for_cards_without_a_squad_says_what_to_do(small, tmp_path):
    plan = tmp_path / "plan.json"
    plan.write_text(small.document.model_dump_json(), encoding="utf-8")
    asked = [str(small.loaded.path), str(plan), "-o", str(tmp_path / "out"), "--cards"]

    result = CliRunner().invoke(report_command, asked)
    assert result.exit_code == 1
    assert "squad_file" in result.stderr
