"""The page in Firefox: what Chromium is tried on at length, once more in the other engine."""

import io

import pytest
from firefox_page import firefox

FROM, TO = "2027-03-13", "2027-03-10"
CONTROL = "\ue009"
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
EDITS = "[...document.querySelectorAll('#edits bdi')].map((each) => each.textContent)"


@pytest.fixture(scope="module")
def fox():
    with firefox(night=True) as started:
        yield started


@pytest.fixture
def page(fox, served):
    fox.size(1440, 1000)
    fox.get(served.url)
    fox.wait("document.querySelector('.cell')")
    return fox


def place(date):
    """Return an expression for the middle of a match's sign, and the width of a week."""
    return (
        f"(() => {{ const box = document.querySelector(\".match[data-date='{date}']\")"
        ".getBoundingClientRect(); return [box.x + box.width / 2, box.y + box.height / 2,"
        " Number(document.querySelector('.sheet').dataset.w)]; })()"
    )


def test_a_match_is_dragged_and_taken_back_by_keys(page, served):
    x, y, week = page.run(place(FROM))
    page.drag(round(x), round(y), round(-3 * week / 7))
    page.wait(f"document.querySelector(\".match[data-date='{TO}']\")")
    page.wait("!document.getElementById('stop') && document.getElementById('headline')")
    moved = served.state["fixtures"][1]["date"]
    made = page.run(EDITS)
    page.perform(
        {
            "type": "key",
            "id": "keys",
            "actions": [
                {"type": "keyDown", "value": CONTROL},
                {"type": "keyDown", "value": "z"},
                {"type": "keyUp", "value": "z"},
                {"type": "keyUp", "value": CONTROL},
            ],
        }
    )
    page.wait(f"document.querySelector(\".match[data-date='{FROM}']\")")

    assert moved == TO
    assert len(made) == 1
    assert page.run(EDITS) == []
    assert page.said == []


@pytest.mark.parametrize("width", [390, 768, 2560])
def test_nothing_is_cut_off_by_night_at_any_width(page, width):
    page.size(width)
    page.wait(f"document.documentElement.clientWidth <= {width}")
    ground = page.run("getComputedStyle(document.body).backgroundColor")

    assert page.run(SIDEWAYS) <= 0
    assert ground == "rgb(15, 21, 27)"
    assert page.said == []


def test_days_and_hours_are_shown_and_the_season_is_one_sheet_of_paper(page):
    from pypdf import PdfReader

    page.run("document.querySelectorAll('.zoom .choices button')[2].click()")
    page.wait("document.querySelector('.day .hours li')")
    read = PdfReader(io.BytesIO(page.paper())).pages

    assert len(read) == 1
    # words in bold are drawn and not written there
    assert "Long acceleration" in read[0].extract_text()
    assert page.said == []
