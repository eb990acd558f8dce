"""A headless Chromium for tests of pages, and what it saw."""

import json
import shutil
import tempfile
from contextlib import contextmanager
from pathlib import Path

import pytest

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
)


@contextmanager
def chromium():
    """Yield a browser of its own; skip the test where there is none."""
    binary = shutil.which("chromium") or shutil.which("chromium-browser")
    driver = shutil.which("chromedriver")
    if not binary or not driver:
        pytest.skip("needs Debian's packages chromium and chromium-driver")
    webdriver = pytest.importorskip("selenium.webdriver", reason="needs selenium (extra dev)")
    with tempfile.TemporaryDirectory() as profile:
        options = webdriver.ChromeOptions()
        options.binary_location = binary
        for flag in (*FLAGS, f"--user-data-dir={profile}"):
            options.add_argument(flag)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        browser = webdriver.Chrome(options=options, service=webdriver.ChromeService(driver))
        # the accessibility rules take long on a busy machine; slow is not wrong
        browser.set_script_timeout(300)
        browser.set_page_load_timeout(300)
        try:
            yield browser
        finally:
            browser.quit()


def size(browser, width, height=900):
    """Make the page so many pixels wide."""
    browser.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride",
        {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False},
    )


def dark(browser, on=True):
    """Ask for dark colours, or for light ones."""
    wanted = {"name": "prefers-color-scheme", "value": "dark" if on else "light"}
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [wanted]})


def console(browser):
    """Return what the console said since it was last asked."""
    return [entry["message"] for entry in browser.get_log("browser")]


def requests(browser):
    """Return the addresses asked for since it was last asked."""
    messages = [json.loads(entry["message"])["message"] for entry in browser.get_log("performance")]
    return [
        message["params"]["request"]["url"]
        for message in messages
        if message["method"] == "Network.requestWillBeSent"
    ]


def sideways(browser):
    """Return how many pixels the page can be scrolled sideways."""
    return browser.execute_script(
        "return document.documentElement.scrollWidth - document.documentElement.clientWidth"
    )


def violations(browser):
    """Return what axe finds wrong, one line each; skip where axe is not installed."""
    home = pytest.importorskip("axe_core_python", reason="needs axe-core-python (extra dev)")
    browser.execute_script((Path(home.__file__).parent / "axe.min.js").read_text(encoding="utf-8"))
    found = browser.execute_async_script(
        "const done = arguments[0]; axe.run().then(done, (error) => done({error: String(error)}))"
    )
    return [
        f"{each['id']}: {node['target']} {node['failureSummary']}"
        for each in found["violations"]
        for node in each["nodes"]
    ]
