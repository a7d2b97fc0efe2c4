"""A browser with the page in it."""
import os
import pathlib

import pytest

from browser import chromium

PAGE = pathlib.Path(os.environ["LIBBRAKE_BUILD"]) / "stopmargin.html"


@pytest.fixture(scope="module")
def page():
    running = chromium.Chromium()
    yield Page(running)
    running.close()


class Page:
    """The page as a person uses it."""

    def __init__(self, browser):
        self.browser = browser

    def open(self, size):
        """Shows it in a window of a size, as if for the first time."""
        self.browser.open(PAGE, size)
        self.js("localStorage.clear()")
        said, fetched = self.browser.open(PAGE, size)
        self.wait("document.body.dataset.ready === 'yes'")
        return said, fetched

    def media(self, scheme="light", motion="no-preference"):
        """What the person asked the system for."""
        self.browser._ask("Emulation.setEmulatedMedia", features=[
            {"name": "prefers-color-scheme", "value": scheme},
            {"name": "prefers-reduced-motion", "value": motion}])

    def file_of(self):
        """Where the page is."""
        return PAGE

    def js(self, expression):
        return self.browser.evaluate(expression)

    def wait(self, condition, seconds=60):
        """Until something is so."""
        assert self.js(
            "(async () => { for (let i = 0; i < %d; i++) { if (%s) return true;"
            " await new Promise(done => setTimeout(done, 50)); } return false; })()"
            % (seconds * 20, condition)
        ), condition

    def tap(self, selector):
        self.js(f"document.querySelector({selector!r}).click()")

    def choose(self, selector, word):
        self.js(
            f"(() => {{ const node = document.querySelector({selector!r}); node.value = {word!r};"
            " node.dispatchEvent(new Event('change', {bubbles: true})); })()"
        )

    def type(self, selector, text):
        """Puts the cursor there, and types in place of what stands there."""
        self.js(
            f"(() => {{ const node = document.querySelector({selector!r});"
            " for (let one = node; one; one = one.parentElement) if (one.localName === 'details')"
            " one.open = true; node.focus(); node.select(); })()"
        )
        self.browser._ask("Input.insertText", text=text)
        self.js("document.activeElement.dispatchEvent(new Event('change', {bubbles: true}))")

    def press(self, key):
        """A key that types nothing."""
        for kind in ("rawKeyDown", "keyUp"):
            self.browser._ask("Input.dispatchKeyEvent", type=kind, key=key, code=key,
                              windowsVirtualKeyCode={"Tab": 9}[key])

    def give(self, selector, path):
        """Opens a file."""
        root = self.browser._ask("DOM.getDocument")["root"]["nodeId"]
        node = self.browser._ask("DOM.querySelector", nodeId=root, selector=selector)["nodeId"]
        self.browser._ask("DOM.setFileInputFiles", nodeId=node, files=[str(path)])

    def answer(self):
        """Its words, also those that a small window folds away."""
        nodes = "[...document.querySelectorAll('aside :is(p, dt, dd, li)')]"
        return " ".join(self.js(f"{nodes}.map(node => node.textContent).join(' ')").split())

    def file(self):
        return self.js("localStorage.getItem('stopmargin.file')")
