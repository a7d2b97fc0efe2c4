# SPDX-License-Identifier: MIT
"""Debian's Chromium without a window, spoken to through its debugging pipe: what a page says,
measures and prints. Messages are JSON, each ended by a NUL byte."""
import base64
import fcntl
import json
import os
import subprocess
import tempfile

# Root needs --no-sandbox; the rest keeps it from looking at the network or the machine.
COMMAND = [
    "chromium",
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
    "--no-first-run",
    "--disable-extensions",
    "--disable-background-networking",
    "--disable-component-update",
    "--remote-debugging-pipe",
]
PHONE, DESKTOP = (360, 740), (1280, 900)
# inches; source: ISO 216 and ANSI/ASME Y14.1
PAPERS = {"A4": (210 / 25.4, 297 / 25.4), "Letter": (8.5, 11)}

# Boxes on the page, as a browser lays them out.
MEASURE = """
(() => {
  const box = node => { const r = node.getBoundingClientRect();
    return {left: r.left, right: r.right, top: r.top, bottom: r.bottom,
            text: (node.textContent || "").slice(0, 60)}; };
  const style = node => getComputedStyle(node);
  const all = [...document.querySelectorAll("body *")];
  const wide = all.filter(node => !node.closest("svg") && (
    node.getBoundingClientRect().right > innerWidth + 0.5 ||
    style(node).display !== "inline" && node.clientWidth > 0 &&
    node.scrollWidth > node.clientWidth + 1)).map(box);
  const pictures = [...document.querySelectorAll("svg")].map(svg => {
    const texts = [...svg.querySelectorAll("text")];
    return {role: svg.getAttribute("role"), box: box(svg),
      named: svg.getAttribute("aria-labelledby").split(" ").map(
        id => document.getElementById(id).textContent),
      title: svg.querySelector("title").textContent, desc: svg.querySelector("desc").textContent,
      size: Math.min(...texts.map(t => parseFloat(style(t).fontSize) * svg.getScreenCTM().a)),
      texts: texts.map(box)}; });
  return JSON.stringify({width: innerWidth, scroll: document.documentElement.scrollWidth, wide,
    pictures, ink: [...new Set(all.map(node => style(node).color))],
    cells: [...document.querySelectorAll("td,th")].map(box)});
})()
"""


class Chromium:
    """One browser for many pages."""

    def __init__(self):
        self._home = tempfile.TemporaryDirectory()
        to_read, self._to = os.pipe()
        self._from, to_write = os.pipe()
        # it reads from 3 and writes to 4, so neither end may stand there already
        ends = [fcntl.fcntl(end, fcntl.F_DUPFD, 16) for end in (to_read, to_write)]
        self._process = subprocess.Popen(
            [*COMMAND, f"--user-data-dir={self._home.name}", "about:blank"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            pass_fds=(3, 4),
            preexec_fn=lambda: (os.dup2(ends[0], 3), os.dup2(ends[1], 4)),
        )
        for end in (to_read, to_write, *ends):
            os.close(end)
        self._number, self._rest, self._events = 0, b"", []
        target = self._ask("Target.createTarget", url="about:blank", session=None)["targetId"]
        self._session = self._ask(
            "Target.attachToTarget", targetId=target, flatten=True, session=None
        )["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self._ask(f"{domain}.enable")

    def close(self):
        os.close(self._to)  # it ends when nobody speaks to it
        self._process.wait(timeout=30)
        os.close(self._from)
        self._home.cleanup()

    def _hear(self):
        while b"\0" not in self._rest:
            more = os.read(self._from, 1 << 20)
            assert more, "Chromium has ended"
            self._rest += more
        message, _, self._rest = self._rest.partition(b"\0")
        return json.loads(message)

    def _ask(self, method, session="", **parameters):
        self._number += 1
        message = {"id": self._number, "method": method, "params": parameters}
        if session is not None:
            message["sessionId"] = self._session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while (heard := self._hear()).get("id") != self._number:
            self._events.append(heard)
        assert "error" not in heard, heard
        return heard["result"]

    def open(self, page, size):
        """Shows a page in a window of a size; returns what went to the console or was fetched."""
        self._events.clear()
        self._ask("Emulation.setDeviceMetricsOverride", width=size[0], height=size[1],
                  deviceScaleFactor=1, mobile=size[0] < 600)
        self._ask("Page.navigate", url=page.as_uri())
        while all(event["method"] != "Page.loadEventFired" for event in self._events):
            self._events.append(self._hear())
        self.evaluate("document.fonts.ready.then(() => 'ready')")
        said = {"Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded"}
        fetched = [event["params"]["request"]["url"] for event in self._events
                   if event["method"] == "Network.requestWillBeSent"]
        return [event["params"] for event in self._events if event["method"] in said], fetched

    def evaluate(self, expression):
        """Value of an expression in the page that is open."""
        answer = self._ask("Runtime.evaluate", expression=expression, awaitPromise=True,
                           returnByValue=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def measure(self, page, size):
        """Boxes on a page."""
        self.open(page, size)
        return json.loads(self.evaluate(MEASURE))

    def screenshot(self, page, size, picture):
        """The whole page as a PNG file."""
        self.open(page, size)
        shot = self._ask("Page.captureScreenshot", captureBeyondViewport=True)
        picture.write_bytes(base64.b64decode(shot["data"]))

    def print_out(self, page, paper, pdf):
        """The page as a PDF file."""
        self.open(page, DESKTOP)
        width, height = PAPERS[paper]
        data = self._ask("Page.printToPDF", paperWidth=width, paperHeight=height,
                         preferCSSPageSize=False)["data"]
        pdf.write_bytes(base64.b64decode(data))


def pages_of(pdf):
    """Text of each page."""
    text = subprocess.run(
        ["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True, text=True
    ).stdout
    return text.split("\f")[:-1]


def facts_of(pdf):
    """What pdfinfo says."""
    text = subprocess.run(["pdfinfo", pdf], check=True, capture_output=True, text=True).stdout
    return dict(line.split(":", 1) for line in text.splitlines() if ":" in line)


def fonts_of(pdf):
    """Fonts as (name, embedded)."""
    lines = subprocess.run(
        ["pdffonts", pdf], check=True, capture_output=True, text=True
    ).stdout.splitlines()
    column = lines[0].index("emb")
    return [(line.split()[0], line[column : column + 3].strip()) for line in lines[2:]]
