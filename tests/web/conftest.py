# SPDX-License-Identifier: MIT
"""A browser with the page in it."""
import base64
import os
import pathlib
import time

import pytest

from browser import chromium

PAGE = pathlib.Path(os.environ["LIBBRAKE_BUILD"]) / "stopmargin.html"


@pytest.fixture(scope="module")
def page():
    running = chromium.Chromium()
    yield Page(running)
    running.close()


# The middle of what is seen of a node, once it is in the window, at rest, and nothing covers it.
MIDDLE = """(async () => { const node = document.querySelector(%r);
  for (let i = 0; i < 20; i++) {
    node.scrollIntoView({block: 'center', behavior: 'instant'});
    await new Promise(done => setTimeout(done, 50));
    const box = node.getBoundingClientRect();
    const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
    if (node.contains(document.elementFromPoint(x, y))) return [x, y, true];
  }
  return [0, 0, false]; })()"""


# The answer and its cautions without what the page adds, buttons and requirements in words; More,
# its last row, behind the list, as the command has it.
FIRST_SCREEN = """(() => { const copy = document.body.cloneNode(true);
  const added = '.means, [data-do], dl > div:has([data-do=stock])';
  for (const node of copy.querySelectorAll(added)) node.remove();
  copy.querySelector('#answer').append(copy.querySelector('#answer dl > div:last-child'));
  return [...copy.querySelectorAll('#caution, #answer :is(dt, dd, li), #caution-long')].map(
    node => node.id === 'caution-long' ? `Caution ${node.textContent}` : node.textContent); })()"""


class Page:
    """The page as a person uses it."""

    def __init__(self, browser):
        self.browser = browser
        self.ran = set()  # names of the functions that were called
        browser._ask("Profiler.enable")
        browser._ask("Profiler.startPreciseCoverage", callCount=True, detailed=False)
        # nothing that it might fetch would come
        browser._ask("Network.emulateNetworkConditions", offline=True, latency=0,
                     downloadThroughput=-1, uploadThroughput=-1)

    def functions(self):
        """Those of the page that ran so far."""
        for script in self.browser._ask("Profiler.takePreciseCoverage")["result"]:
            self.ran |= {function["functionName"] for function in script["functions"]
                         if function["ranges"][0]["count"]}
        return self.ran

    def open(self, size):
        """Shows it in a window of a size, as if for the first time."""
        self.functions()
        self.browser.open(PAGE, size)
        self.js("localStorage.clear()")
        return self.open_again(size)

    def open_again(self, size):
        """Shows it with what it kept."""
        self.functions()
        said, fetched = self.browser.open(PAGE, size)
        self.wait("document.body.dataset.ready === 'yes'")
        return said, fetched

    def colours(self, scheme):
        """Light or dark, as the person has it."""
        self.browser._ask("Emulation.setEmulatedMedia", features=[
            {"name": "prefers-color-scheme", "value": scheme}])

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
        """Where a finger would, if nothing is in the way."""
        x, y, free = self.js(MIDDLE % selector)
        assert free, selector
        for kind in ("mousePressed", "mouseReleased"):
            self.browser._ask("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left",
                              clickCount=1)

    def drop(self, selector, path):
        """Lets a file fall there."""
        x, y, _ = self.js(MIDDLE % selector)
        for kind in ("dragEnter", "dragOver", "drop"):
            self.browser._ask("Input.dispatchDragEvent", type=kind, x=x, y=y, data={
                "items": [], "files": [str(path)], "dragOperationsMask": 1})

    def saved(self, selector, folder, name):
        """What a button saves, as a text."""
        self.browser._ask("Page.setDownloadBehavior", behavior="allow", downloadPath=str(folder))
        self.tap(selector)
        for _ in range(200):
            if (folder / name).exists():
                return (folder / name).read_text()
            time.sleep(0.05)
        raise AssertionError([path.name for path in folder.iterdir()])

    def shot(self, name):
        """What is seen now, for people to look at."""
        folder = PAGE.parent / "shots"
        folder.mkdir(exist_ok=True)
        picture = self.browser._ask("Page.captureScreenshot")["data"]
        (folder / f"{name}.png").write_bytes(base64.b64decode(picture))

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

    def first_screen(self):
        """The words that the command prints too."""
        return " ".join(" ".join(self.js(FIRST_SCREEN)).split())

    def file(self):
        return self.js("localStorage.getItem('stopmargin.file')")
