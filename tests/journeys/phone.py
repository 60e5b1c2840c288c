"""A phone's browser, and the real server that it asks."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from tests.web.homes import copied

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
READY_IN_S = 180
"""A server is there within a few seconds; a busy machine lets one wait, and this only ends a wait that is in vain."""
QUIET = """
import sys
from bluewright.web import aside, serve
aside.Aside.repeat = lambda *_, **__: None
sys.exit(serve.run(sys.argv[1:]))
"""
"""`bluewright serve`, but nothing is reckoned beside the pages: what a whole season taught would be by each server."""
THUMB_PX = 44
"""What a thumb hits: 44 CSS pixels, the size asked for by WCAG 2.2, success criterion 2.5.5."""
SMALL_TARGETS = """
    low => [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea')]
        .map(e => (e.type === 'radio' || e.type === 'checkbox') ? (e.closest('label') ?? e) : e)
        .filter(e => e.getClientRects().length)
        .map(e => [e.outerHTML.slice(0, 90), e.getBoundingClientRect().height])
        .filter(([_, high]) => high < low)
"""


@pytest.fixture(scope="module")
def home(season: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that holds all that the server keeps: the invented season."""
    return copied(season, tmp_path_factory.mktemp("garden"))


@pytest.fixture(scope="module")
def empty_home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that nothing was kept in yet."""
    return tmp_path_factory.mktemp("garden")


@pytest.fixture(scope="module")
def server(home: Path) -> Iterator[str]:
    """The address of a server of the file's folder, which learns nothing meanwhile."""
    with serving(home, by=("-c", QUIET)) as address:
        yield address


@contextmanager
def serving(home: Path, *, by: tuple[str, ...] = ("-m", "bluewright", "serve")) -> Iterator[str]:
    """A server of this folder while the block runs, started as anybody starts it unless told; its address."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    home.mkdir(exist_ok=True)
    log = home / "server.log"
    with log.open("wb") as said:
        running = subprocess.Popen(
            [sys.executable, *by, "--home", home, "--port", str(port), "--no-browser"], stdout=said, stderr=said
        )
        try:
            yield _ready(f"http://127.0.0.1:{port}", running, log)
        finally:
            running.terminate()
            running.wait(timeout=20)


def _ready(address: str, running: subprocess.Popen[bytes], log: Path) -> str:
    until = time.monotonic() + READY_IN_S
    while time.monotonic() < until and running.poll() is None:
        try:
            with urllib.request.urlopen(f"{address}/gardens/", timeout=5):
                return address
        except OSError:  # not there yet, or a busy machine that lets one wait
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
        assert wide <= self.page.viewport_size["width"], f"{self.page.url} is {wide} px wide"
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
        box = self.page.locator(f"[name={field}]:not([type=hidden])")
        assert box.evaluate("e => e.labels.length") == 1, f"{field} has no label"
        box.fill(text)

    def said(self) -> str:
        return str(self.page.locator("main").inner_text())


@contextmanager
def browsing() -> Iterator[Any]:
    """A browser while the block runs; no test may reach the database meanwhile (its loop would be in the way)."""
    if CHROMIUM is None:
        pytest.skip("no chromium on this machine")
    sync_api = pytest.importorskip("playwright.sync_api")
    with sync_api.sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        try:
            yield started
        finally:
            started.close()


@contextmanager
def page_of(browser: Any, **size: Any) -> Iterator[Any]:
    """A page that shares nothing with those before it: a phone's, unless told of another size."""
    page = browser.new_page(**{"viewport": PHONE, "has_touch": True, "locale": "en-GB"} | size)
    try:
        yield page
    finally:
        page.context.close()


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """The browser of a file of tests."""
    with browsing() as started:
        yield started


@pytest.fixture
def phone(browser: Any, server: str) -> Iterator[Phone]:
    """A phone on which nothing was opened yet."""
    with page_of(browser) as page:
        yield Phone(page, server)
