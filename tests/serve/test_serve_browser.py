"""The page in a browser: mouse, keys, several widths, by day and by night, and on paper."""

import base64
import io
import time

import pytest
from chromium_page import console, dark, requests, sideways, size, violations
from serving import PATIENCE, serving
from small_season import ALL_SIX, FIXTURES, SCENARIO

#: Types a number where a label says so.
TYPED = (
    "const label = [...document.querySelectorAll('label')]"
    ".find(each => each.textContent.includes(arguments[0]));"
    "const box = label.querySelector('input'); box.value = arguments[1];"
    "box.dispatchEvent(new Event('change', {bubbles: true}));"
)
FROM, TO = "2027-03-13", "2027-03-10"


@pytest.fixture
def page(browser, served):
    dark(browser, on=False)
    size(browser, 1440, 1000)
    blank(browser)
    browser.get(served.url)
    wait(browser, lambda: browser.find_elements("css selector", ".cell"))
    return browser


def blank(browser):
    """Leave the page that is shown, and forget what it said."""
    browser.get("about:blank")
    console(browser), requests(browser)


def wait(browser, ready):
    from selenium.webdriver.support.ui import WebDriverWait

    return WebDriverWait(browser, PATIENCE, poll_frequency=0.05).until(lambda _: ready())


def match(browser, date):
    return browser.find_elements("css selector", f".match[data-date='{date}']")


def edits(browser):
    script = "return [...document.querySelectorAll('#edits bdi')].map(each => each.textContent)"
    return browser.execute_script(script)


def line(browser):
    return browser.find_element("id", "line").text


def answered(browser):
    """Wait for the plan that goes with the changes."""
    wait(browser, lambda: edits(browser) and not browser.find_elements("id", "stop"))


def settled_width(browser):
    """Return the width of a week once the board has found its size and stays at it."""
    script = (
        "const done = arguments[0], width = () => document.querySelector('.sheet').dataset.w;"
        "const look = (last, same) => setTimeout(() => requestAnimationFrame(() => {"
        " if (width() !== last) return look(width(), 0);"
        " return same > 2 ? done(last) : look(last, same + 1); }), 100);"
        "look(width(), 0);"
    )
    return float(browser.execute_async_script(script))


def press(browser, *keys):
    from selenium.webdriver.common.action_chains import ActionChains

    ActionChains(browser).send_keys(*keys).perform()


def control(browser, key):
    """Press a key with Ctrl held down."""
    from selenium.webdriver.common.action_chains import ActionChains
    from selenium.webdriver.common.keys import Keys

    keys = ActionChains(browser).key_down(Keys.CONTROL).send_keys(key).key_up(Keys.CONTROL)
    keys.perform()


def click(browser, selector):
    browser.execute_script("arguments[0].click()", browser.find_element("css selector", selector))


def button(browser, words):
    path = f"//button[normalize-space()='{words}']"
    browser.execute_script("arguments[0].click()", browser.find_element("xpath", path))


def test_a_match_dragged_along_the_days_is_planned_anew(page, served):
    from selenium.webdriver.common.action_chains import ActionChains

    by = round(-3 * settled_width(page) / 7)
    ActionChains(page).drag_and_drop_by_offset(match(page, FROM)[0], by, 0).perform()
    wait(page, lambda: edits(page))
    answered(page)

    assert match(page, FROM) == []
    assert edits(page) == ["Match of Sat, Mar 13 moved to Wed, Mar 10"]
    assert page.find_element("id", "headline").text
    assert served.state["fixtures"][1]["date"] == TO
    assert console(page) == []


def test_a_match_moves_by_keys_alone_and_undo_brings_it_back(page):
    from selenium.webdriver.common.keys import Keys

    page.execute_script("arguments[0].focus()", match(page, FROM)[0])
    press(page, "m", Keys.ARROW_DOWN, Keys.ARROW_LEFT, Keys.ESCAPE)
    left = match(page, FROM)
    press(page, "m", Keys.ARROW_UP, *[Keys.ARROW_RIGHT] * 4)
    held = page.find_element("css selector", ".held").text
    press(page, Keys.ENTER)
    wait(page, lambda: match(page, TO))
    control(page, "z")
    wait(page, lambda: match(page, FROM))

    assert left
    assert "Mar 10" in held
    assert edits(page) == []


def finger(browser, element, by, rest):
    """Lay a finger on something, let it rest for so many seconds, and draw it sideways."""
    middle = (
        "arguments[0].scrollIntoView({block: 'center', inline: 'center'});"
        "const box = arguments[0].getBoundingClientRect();"
        "return [box.left + box.width / 2, box.top + box.height / 2]"
    )
    x, y = browser.execute_script(middle, element)
    for kind, to in (("Start", 0), ("Move", by / 2), ("Move", by), ("End", None)):
        points = [] if to is None else [{"x": x + to, "y": y}]
        touch = {"type": f"touch{kind}", "touchPoints": points}
        browser.execute_cdp_cmd("Input.dispatchTouchEvent", touch)
        time.sleep(rest if kind == "Start" else 0.05)


@pytest.fixture
def touched(page):
    """Return a page on a small screen that is touched."""
    page.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True})
    try:
        size(page, 390, 844)
        yield page
    finally:
        page.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": False})


def test_a_finger_that_rests_on_a_match_moves_it_and_one_in_passing_scrolls(touched, served):
    wide = settled_width(touched)
    finger(touched, match(touched, FROM)[0], 3 * wide / 7, rest=0)
    scrolled = match(touched, FROM)
    finger(touched, match(touched, FROM)[0], -3 * wide / 7, rest=1)
    wait(touched, lambda: edits(touched))

    assert scrolled
    assert served.state["fixtures"][1]["date"] == TO


def border_asked_for(browser, served):
    """Ask for a block that begins in week 7, and return its border."""
    asked = {"edit": "set", "rule": "blocks"}
    short = {**asked, "parameter": "shortest", "value": 2}
    served.edit(short, {**asked, "parameter": "begin", "value": [7]})
    wait(browser, lambda: browser.find_elements("css selector", ".border.asked"))
    answered(browser)
    return browser.find_element("css selector", ".border.asked")


def test_a_finger_pulls_a_blocks_border(touched, served):
    border = border_asked_for(touched, served)
    finger(touched, border, settled_width(touched), rest=1)
    wait(touched, lambda: len(edits(touched)) == 4)

    assert edits(touched)[2:] == ["A block begins in week 8", "No block begins in week 7"]


def test_a_blocks_border_is_pulled_and_before_and_after_are_looked_at(page, served):
    from selenium.webdriver.common.action_chains import ActionChains
    from selenium.webdriver.common.keys import Keys

    border = border_asked_for(page, served)
    wide = round(settled_width(page))
    ActionChains(page).drag_and_drop_by_offset(border, wide, 0).perform()
    wait(page, lambda: len(edits(page)) == 4)
    answered(page)
    wait(page, lambda: page.find_elements("css selector", ".scrub input"))
    bars = "return [...document.querySelectorAll('.before .bar')].length"
    after = page.execute_script(bars)
    page.find_element("css selector", ".scrub input").send_keys(Keys.HOME)
    wait(page, lambda: page.execute_script(bars))

    assert edits(page)[2:] == ["A block begins in week 8", "No block begins in week 7"]
    assert served.state["weeks"][7]["block_week"] == 1
    assert after == 0


def test_an_odd_change_is_asked_about_first(page):
    click(page, f".match[data-date='{FROM}']")
    wait(page, lambda: page.find_elements("name", "to"))
    script = (
        "const to = document.querySelector('input[name=to]'); to.value = '2027-03-21';"
        "to.dispatchEvent(new Event('input', {bubbles: true}));"
    )
    page.execute_script(script)
    wait(page, lambda: page.find_element("xpath", "//button[text()='Move']").is_enabled())
    button(page, "Move")
    wait(page, lambda: page.find_elements("id", "sure"))
    asked = page.find_element("css selector", "dialog").text
    unmoved = match(page, FROM)
    click(page, "#sure")
    wait(page, lambda: match(page, "2027-03-21"))

    assert "the day before" in asked
    assert unmoved


def test_a_cell_tells_its_work_and_is_held_by_a_click(page, served):
    click(page, ".cell")
    wait(page, lambda: "The work" in page.find_element("css selector", ".panel").text)
    button(page, "Hold it as it is")
    wait(page, lambda: page.find_elements("css selector", ".cell.held"))

    assert "You hold this choice" in page.find_element("css selector", ".panel").text
    assert "held at" in served.state["edits"][0]["words"]


def test_arrow_keys_go_from_cell_to_cell_and_commands_are_found_by_words(page):
    from selenium.webdriver.common.keys import Keys

    page.execute_script("document.querySelector('.cell').focus()")
    press(page, Keys.ARROW_RIGHT, Keys.ARROW_DOWN)
    place = page.switch_to.active_element.get_attribute("data-cell")
    control(page, "k")
    wait(page, lambda: page.find_elements("css selector", "dialog.palette input"))
    press(page, "week 4", Keys.ENTER)
    wait(page, lambda: page.find_elements("css selector", ".days-table"))

    assert place == "1 2"
    assert page.find_element("css selector", ".panel h3").text == "Week 4"


def test_two_tabs_are_kept_in_step_and_an_older_one_is_refused(page, served):
    served.edit({"edit": "rank", "date": "2027-03-20", "priority": "medium"})
    wait(page, lambda: edits(page) == ["Match of Sat, Mar 20 is medium"])
    page.execute_script(
        "import('./page/js/store.js').then(({ store }) => { store.state.revision -= 1; })"
    )
    button(page, "Undo")
    wait(page, lambda: page.find_elements("css selector", ".trouble"))

    assert "another tab" in page.find_element("css selector", ".trouble").text
    assert len(served.state["edits"]) == 1


@pytest.mark.parametrize(("width", "night"), [(390, True), (768, False), (1440, True)])
def test_axe_finds_nothing_wrong_and_nothing_is_cut_off(page, served, width, night):
    served.edit({"edit": "move", "date": FROM, "to": TO})
    served.settled()
    dark(page, on=night)
    size(page, width)
    page.refresh()
    wait(page, lambda: page.find_elements("css selector", ".cell"))
    click(page, f".match[data-date='{TO}']")
    wait(page, lambda: page.find_elements("css selector", ".panel.chosen h3"))

    assert violations(page) == []
    assert sideways(page) <= 0
    assert smallest_type(page) >= 12


def smallest_type(browser):
    """Return the size of the smallest letters, in pixels."""
    return browser.execute_script(
        "return Math.min(...[...document.querySelectorAll('body *')]"
        ".filter(each => [...each.childNodes].some(n => n.nodeType === 3 && n.data.trim()))"
        ".filter(each => each.getClientRects().length)"
        ".map(each => parseFloat(getComputedStyle(each).fontSize)))"
    )


def test_the_whole_season_is_on_one_sheet_of_paper(browser, small, tmp_path):
    from pypdf import PdfReader

    with serving(small(tmp_path, ALL_SIX)) as served:
        served.settled()
        blank(browser)
        browser.get(served.url)
        wait(browser, lambda: browser.find_elements("css selector", ".cell"))
        printed = browser.execute_cdp_cmd("Page.printToPDF", {"preferCSSPageSize": True})
    pages = PdfReader(io.BytesIO(base64.b64decode(printed["data"]))).pages
    text = " ".join(pages[0].extract_text().split())

    assert len(pages) == 1
    assert pages[0].mediabox.width > pages[0].mediabox.height
    assert "Denholm" in text
    assert "General strength" in text


def test_nothing_is_asked_for_outside_this_machine(page, served):
    asked = requests(page)

    assert asked
    assert [u for u in asked if not u.startswith((served.url, "data:", "about:"))] == []


def test_a_first_season_is_made_from_a_list_that_is_dropped(browser, tmp_path):
    (tmp_path / "oakhurst list.csv").write_text(FIXTURES, encoding="utf-8")
    with serving("--in", tmp_path) as served:
        blank(browser)
        size(browser, 1440, 1000)
        browser.get(served.url)
        wait(browser, lambda: browser.find_elements("css selector", "input[type=file]"))
        start = violations(browser)
        box = browser.find_element("css selector", "input[type=file]")
        box.send_keys(str(tmp_path / "oakhurst list.csv"))
        wait(browser, lambda: browser.find_elements("id", "make"))
        read = browser.find_element("css selector", ".read").text
        draft = violations(browser)
        for name, weeks, then in (("off-season", 0, "11 weeks"), ("pre-season", 3, "8 weeks")):
            browser.execute_script(TYPED, f"Weeks of {name}", weeks)
            wait(browser, lambda then=then: then in browser.find_element("id", "main").text)
        click(browser, "#make")
        wait(browser, lambda: browser.find_elements("css selector", ".cell"))
        wait(browser, lambda: "Saved" in line(browser))
        was, held = session_by_finger(browser)

        assert "4 matches" in read
        assert held != was
        assert start == draft == []
        assert (tmp_path / "Oakhurst list" / "plan.json").exists()
        assert console(browser) == []


def session_by_finger(browser):
    """Pull the first session of a week to the next day; return its day before and after."""
    day = (
        "const at = document.querySelector('.hours .at-gym, .hours .at-field');"
        "return at && at.closest('.day').querySelector('.day-name').textContent;"
    )
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True})
    try:
        button(browser, "Weeks")
        was = wait(browser, lambda: browser.execute_script(day))
        session = browser.find_element("css selector", ".hours .at-gym, .hours .at-field")
        finger(browser, session, settled_width(browser) / 7, rest=1)
        moved = wait(browser, lambda: {browser.execute_script(day)} - {was, None})
        return was, moved.pop()
    finally:
        browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": False})


def test_scripts_in_names_do_not_run(browser, small, tmp_path):
    bad = "<img src=x onerror=document.title='hit'>"
    text = SCENARIO.replace("Small season", bad).replace('fixtures_file = "list.csv"\n', "")
    text += f'[[fixtures]]\ndate = 2027-03-06\nopponent = "{bad}"\npriority = "high"\n'
    with serving(small(tmp_path, text)) as served:
        blank(browser)
        browser.get(served.url)
        wait(browser, lambda: browser.find_elements("css selector", ".match"))

        assert match(browser, "2027-03-06")[0].get_attribute("aria-label").startswith(bad)
        assert browser.title.startswith("<img")
        assert console(browser) == []
