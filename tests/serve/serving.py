"""A served season in a process of its own, and how to talk to it."""

import json
import re
import subprocess
import sys
import time
import urllib.error
import urllib.request
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
PATIENCE = 90


class Served:
    """What a page can ask of the program."""

    def __init__(self, url, scenario, process):
        self.url, self.scenario, self.process = url, scenario, process
        self._token = None

    def get(self, path="", headers=(), *, raw=False):
        request = urllib.request.Request(self.url + path, headers=dict(headers))
        with urllib.request.urlopen(request, timeout=PATIENCE) as answer:
            return answer.read() if raw else answer.read().decode("utf-8")

    @property
    def state(self):
        return json.loads(self.get("state"))

    @property
    def token(self):
        if self._token is None:
            self._token = re.search(r'name="page" content="([^"]+)"', self.get())[1]
        return self._token

    def post(self, path, data, headers=None):
        """Return the status and what came with it."""
        given = {"X-Page": self.token} if headers is None else headers
        body = data if isinstance(data, bytes) else json.dumps(data).encode("utf-8")
        request = urllib.request.Request(self.url + path, data=body, headers=given)
        try:
            with urllib.request.urlopen(request, timeout=PATIENCE) as answer:
                return answer.status, json.loads(answer.read())
        except urllib.error.HTTPError as error:
            with error:
                text = error.read().decode("utf-8")
            return error.code, json.loads(text) if text.startswith("{") else text

    def act(self, action, **data):
        """Do something as a tab does that shows what is now."""
        return self.post(f"do/{action}", {"revision": self.state.get("revision"), **data})

    def edit(self, *edits, **more):
        return self.act("edit", edits=list(edits), **more)

    def settled(self):
        """Wait until nothing is searched for and return the state."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            told = json.loads(self.get("progress"))
            if told["solving"] is None and told["asking"] is None:
                return self.state
            time.sleep(0.05)
        raise TimeoutError("the search did not end")

    def begin_again(self):
        """Take every change back, and wait for what still runs."""
        self.act("all-back")
        self.settled()


@contextmanager
def serving(*arguments):
    """Yield a program that serves; its process is ended after."""
    command = [sys.executable, "-m", "cli", "serve", *map(str, arguments), "--port", "0"]
    process = subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    try:
        line = process.stdout.readline()
        assert line.startswith("http://127.0.0.1:"), line + process.stdout.read()
        yield Served(line.split()[0], Path(arguments[0]), process)
    finally:
        process.terminate()
        process.wait(PATIENCE)
        process.stdout.close()
