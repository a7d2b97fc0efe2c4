# SPDX-License-Identifier: MIT
"""Browsers of Debian other than Chromium, spoken to by the commands of WebDriver (W3C, WebDriver,
section 8): Firefox by its own socket, WebKit by its driver, both without a window to look at."""
import json
import os
import pathlib
import shutil
import socket
import subprocess
import tempfile
import time
import urllib.error
import urllib.request

PATIENCE = 60  # s
TAB = "\ue004"  # W3C, WebDriver, section 17.4.2: the key itself


def free_port():
    with socket.socket() as ear:
        ear.bind(("127.0.0.1", 0))
        return ear.getsockname()[1]


def patiently(try_it, what):
    """What `try_it` gives, once it no longer is refused."""
    for _ in range(PATIENCE * 10):
        try:
            return try_it()
        except OSError:
            time.sleep(0.1)
    raise TimeoutError(what)


class Firefox:
    """Firefox answers by a socket of its own: the length of a message, a colon, the message."""

    needs = ("firefox-esr",)

    def __init__(self):
        self._home = tempfile.TemporaryDirectory()
        port = free_port()
        settings = pathlib.Path(self._home.name) / "user.js"
        settings.write_text(f'user_pref("marionette.port", {port});\n')
        self._process = subprocess.Popen(
            ["firefox-esr", "--headless", "--marionette", "--no-remote", "--profile",
             self._home.name], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self._line = patiently(lambda: socket.create_connection(("127.0.0.1", port)), "Firefox")
        self._heard, self._number = b"", 0
        self._hear()  # its greeting
        self.ask("NewSession")

    def _hear(self):
        while b":" not in self._heard:
            self._heard += self._line.recv(1 << 16)
        length, _, self._heard = self._heard.partition(b":")
        while len(self._heard) < int(length):
            self._heard += self._line.recv(1 << 16)
        message, self._heard = self._heard[: int(length)], self._heard[int(length):]
        return json.loads(message)

    def ask(self, name, **given):
        if "element" in given:
            given["id"] = given.pop("element")
        self._number += 1
        message = json.dumps([0, self._number, f"WebDriver:{name}", given]).encode()
        self._line.sendall(str(len(message)).encode() + b":" + message)
        _, _, wrong, answer = self._hear()
        assert wrong is None, wrong
        return answer.get("value") if isinstance(answer, dict) else answer

    def close(self):
        self._line.close()
        self._process.terminate()
        self._process.wait(timeout=PATIENCE)
        self._home.cleanup()


# Method and place of each command (WebDriver, section 8.2).
HTTP = {
    "Navigate": ("POST", "url"),
    "ExecuteScript": ("POST", "execute/sync"),
    "FindElement": ("POST", "element"),
    "ElementSendKeys": ("POST", "element/{element}/value"),
    "DeleteSession": ("DELETE", ""),
}
MINI = "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser"


class WebKit:
    """WebKit answers by HTTP, and wants a screen: one that nobody looks at."""

    needs = ("WebKitWebDriver", "Xvfb", MINI)

    def __init__(self):
        to_read, to_write = os.pipe()
        self._screen = subprocess.Popen(
            ["Xvfb", "-displayfd", str(to_write), "-nolisten", "tcp"], pass_fds=(to_write,),
            stderr=subprocess.DEVNULL)
        os.close(to_write)
        with os.fdopen(to_read) as told:
            number = told.readline().strip()
        port = free_port()
        self._driver = subprocess.Popen(
            ["WebKitWebDriver", f"--port={port}"],
            # root's namespaces are not for its sandbox, and there is no graphics card
            env={**os.environ, "DISPLAY": f":{number}", "LIBGL_ALWAYS_SOFTWARE": "1",
                 "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1"},
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self._place = f"http://127.0.0.1:{port}/session"
        wanted = {"alwaysMatch": {"webkitgtk:browserOptions": {
            "binary": MINI, "args": ["--automation"]}}}
        opened = patiently(lambda: self._send("POST", "", {"capabilities": wanted}), "WebKit")
        self._place += f"/{opened['sessionId']}"

    def _send(self, method, place, given):
        request = urllib.request.Request(
            self._place + place, method=method, headers={"Content-Type": "application/json"},
            data=json.dumps(given).encode() if method == "POST" else None)
        try:
            with urllib.request.urlopen(request, timeout=PATIENCE) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as wrong:
            raise AssertionError(wrong.read().decode()) from wrong

    def ask(self, name, **given):
        method, place = HTTP[name]
        place = place.format(element=given.pop("element", ""))
        return self._send(method, f"/{place}" if place else "", given)

    def close(self):
        self.ask("DeleteSession")
        for process in (self._driver, self._screen):
            process.terminate()
            process.wait(timeout=PATIENCE)


def missing(engine):
    """What of a browser is not installed."""
    return [name for name in engine.needs if shutil.which(name) is None]


class Page:
    """The page in a browser, used as a person does."""

    def __init__(self, browser, page):
        self.browser = browser
        browser.ask("Navigate", url=page.as_uri())
        self.wait("document.body.dataset.ready === 'yes'")

    def js(self, expression):
        return self.browser.ask("ExecuteScript", script=f"return {expression}", args=[])

    def wait(self, condition):
        for _ in range(PATIENCE * 5):
            if self.js(condition):
                return
            time.sleep(0.2)
        raise AssertionError(condition)

    def _find(self, selector):
        found = self.browser.ask("FindElement", using="css selector", value=selector)
        return next(iter(found.values()))

    def tap(self, selector):
        self.js(f"document.querySelector({selector!r}).click()")

    def give(self, selector, path):
        """Opens a file."""
        self.browser.ask("ElementSendKeys", element=self._find(selector), text=str(path))

    def type(self, selector, text):
        """Types in place of what stands there, and goes on by Tab."""
        self.js(f"document.querySelector({selector!r}).select()")
        self.browser.ask("ElementSendKeys", element=self._find(selector), text=text + TAB)

    def answer(self):
        nodes = "[...document.querySelectorAll('aside :is(p, dt, dd, li)')]"
        return " ".join(self.js(f"{nodes}.map(node => node.textContent).join(' ')").split())
