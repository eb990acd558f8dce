"""A headless Firefox for tests of pages, by WebDriver BiDi, which it speaks itself.

No driver is needed beside it: `websocket-client` comes with selenium.
"""

import base64
import itertools
import json
import re
import shutil
import subprocess
import tempfile
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

PATIENCE = 180
#: Nothing is asked of anybody; colours are asked for by `layout.css.prefers-color-scheme`.
PREFERENCES = {
    "app.update.enabled": False,
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "intl.accept_languages": "en-GB",
    "toolkit.telemetry.enabled": False,
}


class Firefox:
    """One window: scripts, keys, pointer, pictures and paper."""

    def __init__(self, socket):
        self._socket, self._ids, self.said = socket, itertools.count(1), []
        self("session.new", capabilities={})
        self("session.subscribe", events=["log.entryAdded"])
        self.window = self("browsingContext.getTree")["contexts"][0]["context"]

    def __call__(self, method, **parameters):
        """Ask for something, and return what it came to."""
        asked = next(self._ids)
        self._socket.send(json.dumps({"id": asked, "method": method, "params": parameters}))
        while True:
            told = json.loads(self._socket.recv())
            if told.get("method") == "log.entryAdded":
                self.said.append(f"{told['params']['level']}: {told['params']['text']}")
            if told.get("id") == asked:
                assert told["type"] == "success", told
                return told["result"]

    def get(self, url):
        self("browsingContext.navigate", context=self.window, url=url, wait="complete")

    def size(self, width, height=900):
        viewport = {"width": width, "height": height}
        self("browsingContext.setViewport", context=self.window, viewport=viewport)

    def run(self, expression):
        """Return what an expression of the page is; promises are waited for."""
        target = {"context": self.window}
        text = f"Promise.resolve({expression}).then((found) => JSON.stringify(found) ?? 'null')"
        told = self("script.evaluate", expression=text, target=target, awaitPromise=True)
        assert told["type"] == "success", told
        return json.loads(told["result"]["value"])

    def wait(self, expression):
        """Wait until an expression is true."""
        script = (
            "new Promise((done, failed) => { const end = Date.now() + %d;"
            " const look = () => { if (%s) done(true);"
            " else if (Date.now() > end) failed(Error('never')); else setTimeout(look, 50); };"
            " look(); })"
        )
        self.run(script % (PATIENCE * 1000, expression))

    def press(self, *keys):
        """Press keys one after the other."""
        actions = [{"type": kind, "value": key} for key in keys for kind in ("keyDown", "keyUp")]
        self.perform({"type": "key", "id": "keys", "actions": actions})

    def drag(self, x, y, by):
        """Pull what is at a place by so many pixels to the right."""
        moves = [{"type": "pointerMove", "x": round(x + by * part), "y": y} for part in (0.5, 1)]
        actions = [
            {"type": "pointerMove", "x": x, "y": y},
            {"type": "pointerDown", "button": 0},
            *moves,
            {"type": "pointerUp", "button": 0},
        ]
        self.perform({"type": "pointer", "id": "mouse", "actions": actions})

    def perform(self, action):
        self("input.performActions", context=self.window, actions=[action])

    def picture(self, path):
        told = self("browsingContext.captureScreenshot", context=self.window)
        Path(path).write_bytes(base64.b64decode(told["data"]))

    def paper(self):
        """Return the page printed, as a PDF on A4 across."""
        told = self(
            "browsingContext.print",
            context=self.window,
            orientation="landscape",
            page={"width": 21.0, "height": 29.7},
            margin=dict.fromkeys(("top", "bottom", "left", "right"), 0.7),
            background=True,
        )
        return base64.b64decode(told["data"])


@contextmanager
def firefox(*, night=False):
    """Yield a browser of its own; skip the test where there is none."""
    binary = shutil.which("firefox-esr") or shutil.which("firefox")
    if not binary:
        pytest.skip("needs Debian's package firefox-esr")
    websocket = pytest.importorskip("websocket", reason="needs selenium (extra dev)")
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        wanted = PREFERENCES | {"layout.css.prefers-color-scheme.content-override": int(not night)}
        lines = [f"user_pref({json.dumps(k)}, {json.dumps(v)});" for k, v in wanted.items()]
        (Path(profile) / "user.js").write_text("\n".join(lines), encoding="utf-8")
        command = [binary, "--headless", "--remote-debugging-port", "0", "--profile", profile]
        with subprocess.Popen(
            [*command, "about:blank"], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True
        ) as process:
            try:
                place = next(
                    filter(None, (re.search(r"ws://\S+", line) for line in process.stderr))
                )
                socket = websocket.create_connection(
                    f"{place[0]}/session", timeout=PATIENCE, suppress_origin=True
                )
                with closing(socket):
                    yield Firefox(socket)
            finally:
                process.kill()
                process.stderr.close()


def _place(lines):
    """Return where it listens, once it says so."""
    return next(found[0] for line in lines if (found := re.search(r"ws://\S+", line)))
