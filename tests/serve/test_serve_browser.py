import pytest
from chromium_page import console, dark, requests, sideways, size, violations
from serving import PATIENCE, serving

FROM, TO = "2027-04-10", "2027-04-14"


@pytest.fixture
def page(browser, served):
    dark(browser, on=False)
    size(browser, 1440, 1600)
    console(browser), requests(browser)
    browser.get("about:blank")
    browser.get(served.url)
    wait(browser, lambda: browser.find_elements("css selector", ".cell"))
    return browser


def wait(browser, ready):
    from selenium.webdriver.support.ui import WebDriverWait

    return WebDriverWait(browser, PATIENCE, poll_frequency=0.05).until(lambda _: ready())


def fixture(browser, date):
    return browser.find_element("css selector", f".fixture[data-date='{date}']")


def at(browser, date):
    return browser.find_elements("css selector", f".fixture[data-date='{date}']")


def edits(browser):
    script = "return [...document.querySelectorAll('#edits bdi')].map(each => each.textContent)"
    return browser.execute_script(script)


def answered(browser):
    """Wait for the plan that goes with the changes."""
    wait(browser, lambda: edits(browser) and not browser.find_element("id", "stop").is_displayed())
    wait(browser, lambda: "Plan found" in browser.find_element("id", "line").text)


def press(browser, *keys):
    from selenium.webdriver.common.action_chains import ActionChains

    ActionChains(browser).send_keys(*keys).perform()


def test_a_match_dragged_to_another_day_is_planned_anew(page, served):
    from selenium.webdriver.common.action_chains import ActionChains

    day = page.find_element("css selector", f".day[data-date='{TO}']")
    ActionChains(page).drag_and_drop(fixture(page, FROM), day).perform()
    wait(page, lambda: at(page, TO))
    answered(page)

    assert at(page, FROM) == []
    assert edits(page) == ["Match of Sat 10 Apr moved to Wed 14 Apr"]
    assert page.find_elements("css selector", ".cell.diff")
    assert page.find_element("id", "peaks").is_displayed()
    assert served.state["edits"] == edits(page)
    assert console(page) == []


def test_a_match_dropped_where_it_was_changes_nothing(page):
    from selenium.webdriver.common.action_chains import ActionChains

    node = fixture(page, FROM)
    ActionChains(page).click_and_hold(node).move_by_offset(4, 2).release().perform()

    assert edits(page) == []
    assert at(page, FROM)


def test_a_match_moves_by_keyboard_alone(page):
    from selenium.webdriver.common.keys import Keys

    page.execute_script("arguments[0].focus()", fixture(page, FROM))
    press(page, Keys.ENTER)
    press(page, Keys.ARROW_RIGHT, Keys.ARROW_UP, Keys.ARROW_UP, Keys.ARROW_UP)
    said = page.find_element("id", "held").text
    press(page, Keys.ENTER)
    wait(page, lambda: at(page, TO))

    assert "14 Apr" in said
    assert page.switch_to.active_element.get_attribute("data-date") == TO


def test_escape_leaves_a_match_where_it_was(page):
    from selenium.webdriver.common.keys import Keys

    page.execute_script("arguments[0].focus()", fixture(page, FROM))
    press(page, Keys.ENTER)
    press(page, Keys.ARROW_RIGHT)
    press(page, Keys.ESCAPE)

    assert at(page, FROM)
    assert edits(page) == []
    assert "stays" in page.find_element("id", "held").text


def test_a_match_moves_by_form_and_the_change_is_taken_back_by_a_click(page):
    move_by_form(page)
    answered(page)
    moved = at(page, TO)
    page.find_element("css selector", "#edits button").click()
    wait(page, lambda: at(page, FROM))

    assert moved
    assert edits(page) == []


def test_a_week_is_closed_by_form(page):
    from selenium.webdriver.support.ui import Select

    form = page.find_element("id", "close")
    Select(form.find_element("name", "week")).select_by_value("3")
    form.find_element("css selector", "button[value=close]").click()
    answered(page)

    assert len(page.find_elements("css selector", ".day.off")) == 7
    assert "Week 3" in page.find_element("id", "changes").text


def test_a_rules_parameter_is_changed_by_form(page):
    from selenium.webdriver.support.ui import Select

    form = page.find_element("id", "rule")
    Select(form.find_element("name", "rule")).select_by_value("load_ramp")
    Select(form.find_element("name", "parameter")).select_by_value("percent")
    value = form.find_element("name", "value")
    value.clear()
    value.send_keys("12")
    form.find_element("css selector", "button").click()
    answered(page)

    assert edits(page) == ["load_ramp: percent is 12"]
    assert "12 %" in page.find_element("id", "rule-words").text


def test_what_cannot_be_done_is_told_and_the_match_goes_back(page):
    from selenium.webdriver.common.action_chains import ActionChains

    taken = page.find_element("css selector", ".day[data-date='2027-04-17']")
    ActionChains(page).drag_and_drop(fixture(page, FROM), taken).perform()
    trouble = page.find_element("id", "trouble")
    wait(page, trouble.is_displayed)

    assert "without a fixture" in trouble.text
    assert at(page, FROM)
    assert edits(page) == []


def move_by_form(page):
    from selenium.webdriver.support.ui import Select

    form = page.find_element("id", "move")
    Select(form.find_element("name", "date")).select_by_value(FROM)
    page.execute_script(f"document.forms.move.to.value = '{TO}'")
    form.find_element("css selector", "button").click()


def test_a_line_tells_how_far_the_search_is(page):
    page.execute_script(
        "const line = document.getElementById('line'); window.lines = [];"
        "new MutationObserver(() => lines.push(line.textContent)).observe(line, {childList: true})"
    )
    move_by_form(page)
    answered(page)
    lines = page.execute_script("return lines")

    assert any(line.startswith("Looking for the best plan") for line in lines)
    assert lines[-1].startswith("Plan found")


def test_a_click_on_stop_ends_the_search(page):
    page.execute_script(
        "const stop = document.getElementById('stop');"
        "new MutationObserver(() => { if (!stop.hidden) stop.click(); })"
        ".observe(stop, {attributes: true})"
    )
    move_by_form(page)
    wait(page, lambda: "Stopped" in page.find_element("id", "line").text)

    assert not page.find_element("id", "stop").is_displayed()
    assert page.find_elements("css selector", ".board.stale")
    assert not page.find_element("id", "save").is_enabled()


@pytest.mark.parametrize("width", [360, 768, 1440])
def test_the_page_does_not_scroll_sideways(page, width):
    size(page, width)

    assert sideways(page) <= 0


@pytest.mark.parametrize("night", [False, True])
def test_axe_finds_nothing_wrong_while_a_change_is_shown(page, served, night):
    served.post("edit", {"edit": "move", "date": FROM, "to": TO})
    served.settled()
    dark(page, on=night)
    page.refresh()
    wait(page, lambda: page.find_elements("css selector", ".cell.diff"))

    assert violations(page) == []


def test_nothing_is_asked_for_outside_this_machine(page, served):
    asked = requests(page)

    assert asked
    assert [u for u in asked if not u.startswith((served.url, "data:", "about:"))] == []


def test_scripts_in_names_do_not_run(browser, copied, tmp_path):
    bad = "<img src=x onerror=document.title='hit'>"
    text = (
        f'name = "{bad}"\nfirst_monday = 2027-02-01\nweeks = 6\nfixtures = [\n'
        f'{{ date = 2027-03-06, opponent = "{bad}", priority = "high" }},\n]\n'
    )
    scenario, plan = copied(tmp_path, text)
    with serving(scenario, "--plan", str(plan)) as served:
        console(browser)
        browser.get(served.url)
        wait(browser, lambda: browser.find_elements("css selector", ".cell"))
        label = fixture(browser, "2027-03-06").get_attribute("aria-label")

        assert browser.title.startswith("<img")
        assert label.startswith(bad)
        assert console(browser) == []


def test_a_click_on_save_writes_the_files(browser, copied, tmp_path):
    scenario, plan = copied(tmp_path)
    with serving(scenario, "--plan", str(plan)) as served:
        browser.get(served.url)
        wait(browser, lambda: browser.find_elements("css selector", ".cell"))
        served.post("edit", {"edit": "move", "date": FROM, "to": TO})
        served.settled()
        browser.refresh()
        wait(browser, lambda: edits(browser))
        browser.find_element("id", "save").click()
        wait(browser, lambda: "Saved" in browser.find_element("id", "line").text)

        assert edits(browser) == []
        assert TO in scenario.read_text(encoding="utf-8")
