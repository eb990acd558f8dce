import base64
import io

import pytest
from chromium_page import console, dark, requests, sideways, size, violations

from cli.report.page_file import page_text

LOCAL = ("file:", "data:", "about:", "devtools:")


@pytest.fixture(scope="module")
def page(small, tmp_path_factory):
    path = tmp_path_factory.mktemp("page") / "report.html"
    path.write_text(page_text(small), encoding="utf-8")
    return path.as_uri()


@pytest.fixture(scope="module")
def hard_page(hard, tmp_path_factory):
    path = tmp_path_factory.mktemp("page") / "hard.html"
    path.write_text(page_text(hard), encoding="utf-8")
    return path.as_uri()


@pytest.fixture
def opened(browser, page):
    dark(browser, on=False)
    size(browser, 1440)
    console(browser), requests(browser)
    browser.get("about:blank")
    browser.get(page)
    return browser


def open_all(browser):
    browser.execute_script("for (const d of document.querySelectorAll('details')) d.open = true")


def test_the_page_loads_from_a_file_without_a_word_on_the_console(opened):
    assert "Northlea" in opened.title
    assert console(opened) == []


def test_nothing_is_asked_for_outside_the_machine(opened):
    asked = requests(opened)

    assert asked
    assert [url for url in asked if not url.startswith(LOCAL)] == []


@pytest.mark.parametrize("width", [360, 768, 1440])
def test_the_page_does_not_scroll_sideways(opened, width):
    size(opened, width)
    open_all(opened)

    assert sideways(opened) <= 0


@pytest.mark.parametrize("width", [360, 768, 1440])
def test_hard_names_do_not_make_the_page_scroll_sideways(browser, hard_page, width):
    size(browser, width)
    browser.get(hard_page)
    open_all(browser)

    assert sideways(browser) <= 0


@pytest.mark.parametrize("night", [False, True])
def test_axe_finds_nothing_wrong(opened, night):
    dark(opened, on=night)
    open_all(opened)

    assert violations(opened) == []


def test_a_click_on_a_week_opens_its_days(opened):
    link = opened.find_element("css selector", ".season a[href='#week-5']")
    table = opened.find_element("css selector", "#week-5 table.days")
    assert not table.is_displayed()

    link.click()

    assert table.is_displayed()
    assert len(table.find_elements("css selector", "tbody th[scope=row]")) == 7


def test_a_week_opens_by_keyboard(opened):
    from selenium.webdriver.common.keys import Keys

    summary = opened.find_element("css selector", "details.week:nth-of-type(3) summary")
    summary.send_keys(Keys.ENTER)

    assert opened.find_element("css selector", "#week-3 table.days").is_displayed()


def test_the_first_stop_of_the_keyboard_leads_past_the_navigation(opened):
    from selenium.webdriver.common.keys import Keys

    opened.find_element("tag name", "body").send_keys(Keys.TAB)
    first = opened.switch_to.active_element
    said = first.text
    first.send_keys(Keys.ENTER)

    assert said == "Skip to the plan"
    assert opened.switch_to.active_element.tag_name == "main"


def test_a_button_opens_and_closes_all_weeks(opened):
    button = opened.find_element("id", "all")
    shut = "return document.querySelectorAll('details.week:not([open])').length"

    button.click()
    after_one = opened.execute_script(shut)
    button.click()

    assert after_one == 0
    assert opened.execute_script(shut) == 14


def test_printed_weeks_are_open_and_shut_again_after(opened):
    shut = "return document.querySelectorAll('details:not([open])').length"
    before = opened.execute_script(shut)

    opened.execute_script("dispatchEvent(new Event('beforeprint'))")
    printing = opened.execute_script(shut)
    opened.execute_script("dispatchEvent(new Event('afterprint'))")

    assert before > 0
    assert printing == 0
    assert opened.execute_script(shut) == before


def test_scripts_in_names_do_not_run_and_names_can_be_read(browser, hard_page, hard_names):
    console(browser)
    browser.get(hard_page)
    text = browser.find_element("css selector", "#peaks table").text

    assert browser.title.startswith("<script>")
    assert console(browser) == []
    assert hard_names["script"] in text
    assert hard_names["long"] in text
    assert "{{ 7 * 7 }}" in browser.find_element("id", "weeks").text


def test_a_name_does_not_turn_what_stands_beside_it(browser, hard_page):
    browser.get(hard_page)
    turned = browser.execute_script(
        "return [...document.querySelectorAll('bdi')]"
        ".some(each => /[\\u202a-\\u202e]/.test(each.textContent))"
    )

    assert turned is False


def test_the_page_prints_on_full_sheets_with_the_season_table_on_one(opened):
    reader = pytest.importorskip("pypdf", reason="needs pypdf (extra dev)").PdfReader
    asked = {"preferCSSPageSize": True, "printBackground": True}
    data = opened.execute_cdp_cmd("Page.printToPDF", asked)["data"]

    sheets = reader(io.BytesIO(base64.b64decode(data))).pages
    told = [" ".join(sheet.extract_text().split()) for sheet in sheets]

    assert "Northlea" in told[0]
    assert "Sprint" in told[0]
    assert "Season table" in told[1]
    assert "Week by week" not in told[1]
    assert all(sheet.mediabox.width > sheet.mediabox.height for sheet in sheets[:2])
    assert "Week by week" in told[2]
