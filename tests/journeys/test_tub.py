"""A grower with a phone: opens the invented garden, looks at a tub, takes the look back, strains, thinks again.

A real browser asks the real server, started as anybody starts it, with an empty folder as its home.
"""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium")
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE = {"width": 390, "height": 844}
THUMB_PX = 44
"""What a thumb hits: 44 CSS pixels, the size asked for by WCAG 2.2, success criterion 2.5.5."""
SMALL_TARGETS = """
    low => [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea')]
        .map(e => (e.type === 'radio' || e.type === 'checkbox') ? (e.closest('label') ?? e) : e)
        .filter(e => e.getClientRects().length)
        .map(e => [e.outerHTML.slice(0, 90), e.getBoundingClientRect().height])
        .filter(([_, high]) => high < low)
"""

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a server with an empty garden."""
    home = tmp_path_factory.mktemp("garden")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    log = home / "server.log"
    with log.open("wb") as said:
        running = subprocess.Popen(
            [sys.executable, "-m", "bluewright", "serve", "--home", home, "--port", str(port), "--no-browser"],
            stdout=said, stderr=said,
        )  # fmt: skip
        try:
            yield _ready(f"http://127.0.0.1:{port}", running, log)
        finally:
            running.terminate()
            running.wait(timeout=20)


def _ready(address: str, running: subprocess.Popen[bytes], log: Path) -> str:
    until = time.monotonic() + 60
    while time.monotonic() < until and running.poll() is None:
        try:
            with urllib.request.urlopen(f"{address}/gardens/", timeout=5):
                return address
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.2)
    pytest.fail(f"the server did not start: {log.read_text()}")


class Phone:
    """A page of a phone's browser that notes whatever must not happen."""

    def __init__(self, page: Any, address: str) -> None:
        self.page, self.address = page, address
        self.elsewhere: list[str] = []
        self.complaints: list[str] = []
        self.refused: list[str] = []
        page.on("request", self._asked)
        page.on("console", lambda said: self.complaints.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("response", lambda got: self.refused.append(f"{got.status} {got.url}") if got.status >= 400 else None)
        page.set_default_timeout(30_000)

    def _asked(self, request: Any) -> None:
        if not request.url.startswith((self.address, "data:")):
            self.elsewhere.append(request.url)

    def check(self) -> None:
        """The page fits the phone, thumbs hit everything, nothing came from elsewhere, nothing went wrong."""
        wide = self.page.evaluate("document.documentElement.scrollWidth")
        assert wide <= PHONE["width"], f"{self.page.url} is {wide} px wide"
        small = self.page.evaluate(SMALL_TARGETS, THUMB_PX)
        assert small == [], f"too small for a thumb on {self.page.url}: {small}"
        assert self.elsewhere == []
        assert self.complaints == []
        assert self.refused == []

    def open(self, path: str) -> None:
        self.page.goto(self.address + path)
        self.check()

    def press(self, words: str) -> None:
        """Press the button or follow the link with these words, and look at where it leads."""
        main = self.page.locator("main")
        with self.page.expect_navigation():
            main.get_by_role("button", name=words).or_(main.get_by_role("link", name=words)).first.click()
        self.check()

    def type(self, field: str, text: str) -> None:
        """Type into a field that has a label of its own."""
        box = self.page.locator(f"[name={field}]")
        assert box.evaluate("e => e.labels.length") == 1, f"{field} has no label"
        box.fill(text)

    def looks(self) -> int:
        return int(self.page.locator(".story form").count())

    def said(self) -> str:
        return str(self.page.locator("main").inner_text())


@pytest.fixture
def phone(server: str) -> Iterator[Phone]:
    sync_api = pytest.importorskip("playwright.sync_api")
    with sync_api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        try:
            yield Phone(browser.new_page(viewport=PHONE, has_touch=True, locale="en-GB"), server)
        finally:
            browser.close()


def test_a_look_its_undo_and_a_straining_thought_better_of(phone: Phone) -> None:
    phone.open("/")
    assert phone.page.url.endswith("/gardens/")
    phone.press("Open the invented garden")
    assert "Tub 3" in phone.said()

    phone.press("Open")
    forecast, looks = phone.page.locator(".call").inner_text(), phone.looks()
    assert "of the best" in forecast

    phone.press("Quick look")
    phone.type("temp", "64 F")
    for sign, level in (("blue_cast", 3), ("scum", 3)):
        phone.page.locator(f"label:has(input[name={sign}][value='{level}'])").click()
    phone.press("Write it down")
    assert phone.looks() == looks + 1
    assert "64 F" in phone.said()
    fresh = phone.page.locator(".call").inner_text()
    assert fresh != forecast

    phone.press("Take out the look of")
    assert phone.looks() == looks
    assert "64 F" not in phone.said()
    phone.press("Undo")
    assert phone.looks() == looks + 1
    assert "64 F" in phone.said()

    phone.press("Strain it")
    phone.type("liquor", "38 L")
    phone.press("Strained")
    assert "38 L" in phone.said()
    phone.press("It was not strained after all")
    assert phone.page.get_by_role("link", name="Strain it").count() == 1


def test_every_other_page_fits_the_phone(phone: Phone) -> None:
    phone.open("/gardens/")
    if phone.page.get_by_role("button", name="Open the invented garden").count():
        phone.press("Open the invented garden")
    for path in ("/beds/", "/beds/add/", "/pickings/", "/pickings/add/", "/tubs/", "/tubs/begin/", "/air/", "/"):
        phone.open(path)


def test_a_mistake_keeps_the_typing_and_still_fits(phone: Phone) -> None:
    phone.open("/gardens/")
    if phone.page.get_by_role("button", name="Open the invented garden").count():
        phone.press("Open the invented garden")
    phone.open("/beds/add/")
    phone.type("name", "East")
    phone.type("area", "5 kg")
    with phone.page.expect_navigation():
        phone.page.get_by_role("button", name="Write it down").click()
    assert phone.page.locator("[name=area]").input_value() == "5 kg"
    assert phone.page.locator("[name=name]").input_value() == "East"
    assert [line.split()[0] for line in phone.refused] == ["422"]
