"""Pictures of the pages for these docs, from the invented season; writes docs/images anew.

A real server with an empty folder, a real browser (Debian's chromium, or CHROMIUM), and the season as it stood at one
moment: taken again they are the same to the point, unless the program or the browser draws otherwise.
"""

from __future__ import annotations

import io
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from PIL import Image
from playwright.sync_api import sync_playwright

IMAGES = Path(__file__).resolve().parent / "images"
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync"]
PHONE, LAPTOP = {"width": 390, "height": 844}, {"width": 1200, "height": 800}
MOST_HIGH = 1700
PORT = 8642
COLOURS = 64
MOMENT = "2026-09-17T11:40:00+00:00"
SERVE = f"""
import datetime, random, secrets, sys, uuid
drawn = random.Random(11)
uuid.uuid4 = lambda: uuid.UUID(int=drawn.getrandbits(128), version=4)
secrets.randbelow = drawn.randrange
from django.utils import timezone
timezone.now = lambda: datetime.datetime.fromisoformat("{MOMENT}")
from bluewright.cli.main import main
sys.exit(main(sys.argv[1:]))
"""
"""The server of anybody, by a clock that stands; keys, which labels show, and seeds are drawn alike each time."""
KEY = r"[0-9a-f-]{36}"


@contextmanager
def server() -> Iterator[str]:
    """The address of a server with the invented season."""
    with socket.socket() as probe:
        if probe.connect_ex(("127.0.0.1", PORT)) == 0:
            raise SystemExit(f"something listens on {PORT} already: stop it, its address stands in the pictures")
    with tempfile.TemporaryDirectory() as home:
        command = [sys.executable, "-c", SERVE, "serve", "--demo", "--home", home, "--port", str(PORT)]
        running = subprocess.Popen([*command, "--no-browser"], stdout=subprocess.DEVNULL)
        try:
            wait_for(f"http://127.0.0.1:{PORT}/")
            yield f"http://127.0.0.1:{PORT}"
        finally:
            running.terminate()
            running.wait(timeout=20)


def wait_for(address: str) -> None:
    """Until the server answers; the season takes some seconds."""
    until = time.monotonic() + 120
    while time.monotonic() < until:
        try:
            urllib.request.urlopen(address, timeout=30).close()
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.3)
        else:
            return
    raise SystemExit("the server did not start")


def wet_work(page: Any, address: str) -> tuple[str, str]:
    """Two batches of the liquor that waits, which the season has not: one to be dosed, one that is being aired."""

    def fill(**typed: str) -> None:
        for name, text in typed.items():
            page.locator(f"main [name={name}]:visible").first.fill(text)

    def send(words: str, within: str = "main") -> None:
        with page.expect_navigation():
            page.locator(within).get_by_role("button", name=words).click()

    keys = []
    for name in ("Morning", "Noon"):
        page.goto(f"{address}/batches/begin/")
        page.locator("main input[name=strains]").first.check()
        fill(name=name, liquor="12 L")
        send("Begin")
        keys.append(page.url.split("/")[4])
        page.goto(f"{address}/alkali/{keys[-1]}/dose/")
        page.locator("form[action*='/look/'] [name=ph]").fill("6.3")
        page.locator("form[action*='/look/'] [name=temp]").fill("18 C")
        send("Write it down", "form[action*='/look/']")
    fill(amount="120 mL")
    page.locator("form[action*='/dose/'] [name=ph]").fill("9.4")
    send("It is in")
    page.goto(f"{address}/airing/{keys[1]}/begin/?way=pour")
    fill(height="50 cm")
    send("Write it down")
    for _ in range(24):
        page.locator("[data-part=tap]").click()
    page.locator("[data-part=saved]").wait_for()
    return keys[0], keys[1]


def reckoned(page: Any) -> None:
    """Wait until what is shown is no longer being reckoned beside the page."""
    until = time.monotonic() + 120
    while "being reckoned" in page.content() and time.monotonic() < until:
        time.sleep(1)
        page.reload()


def pictures(page: Any, address: str) -> Iterator[tuple[str, dict[str, int], str]]:
    """Name, size and path of every picture."""

    def first(path: str, shape: str, *, named: str = "") -> str:
        """The first address of a shape that a page links to, of the thing of that name where one is given."""
        page.goto(address + path)
        links = page.locator("main a").filter(has_text=named) if named else page.locator("main a")
        for at in range(links.count()):
            href = links.nth(at).get_attribute("href") or ""
            if re.fullmatch(shape.replace("*", KEY), href):
                return href
        raise SystemExit(f"{path} links to nothing like {shape}")

    tub = first("/tubs/", "/tubs/*/", named="Tub 3")
    batch = first("/batches/", "/batches/*/", named="In the wash")
    settling = first("/batches/", "/batches/*/", named="Settling").split("/")[2]
    rack = first("/batches/", "/batches/*/", named="On the rack").split("/")[2]
    jar = first("/jars/", "/jars/*/", named="Jar 2")
    bed = first("/beds/", "/beds/*/", named="Long bed")
    bag = first("/cloth/", "/cloth/*/", named="Cotton bag")
    to_dose, to_air = wet_work(page, address)
    shots = {
        "today": "/", "tub-page": tub, "quick-look": f"{tub}look/", "why": f"{tub}why/window/", "batch": batch,
        "alkali": f"/alkali/{to_dose}/dose/", "airing": f"/airing/{to_air}/", "settling": f"/settling/{settling}/",
        "drying": f"/drying/{rack}/", "jar": jar, "jars": "/jars/", "thread": f"/threads/jar/{jar.split('/')[2]}/",
        "assays": f"/assays/jar/{jar.split('/')[2]}/",
        "bed": bed, "weather": "/weather/", "book-phone": "/book/",
        "card": first("/cards/", "/cards/*/"), "vat": first("/vats/", "/vats/*/", named="Class vat"),
        "vat-plan": f"/vats/plan/?kind=dithionite&fibre=wool&volume=20+L&depth=medium&jar={jar.split('/')[2]}",
        "vat-fault": f"{first('/vats/', '/vats/*/', named='The crock')}fault/",
        "ladder": first("/ladders/", "/ladders/*/"), "cloth": "/cloth/", "piece": bag, "dip-timer": f"{bag}dips/",
        "shade": bag.replace("/cloth/", "/shades/"),
        "story": f"{first('/cloth/', '/cloth/*/', named='Table runner')}story/",
    }  # fmt: skip
    for name, path in shots.items():
        yield name, PHONE, path
    pages = {
        "plan": "/plan/", "schedule": "/plan/schedule/", "costs": "/costs/", "stock": "/stock/", "law": "/law/",
        "learned": "/learned/",
    }  # fmt: skip
    for name, path in pages.items():
        yield name, PHONE, path
    yield "plan-sheet", LAPTOP, "/prints/plan/"
    yield "book", LAPTOP, "/book/"
    yield "bench", LAPTOP, "/bench/alkali-dose/"
    yield "label", LAPTOP, f"/prints/jar/{jar.split('/')[2]}/"
    yield "batch-sheet", LAPTOP, f"/prints/batch/{rack}/"


def main() -> int:
    """Write them all, or those that are named."""
    chromium = os.environ.get("CHROMIUM") or shutil.which("chromium")
    with server() as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=ARGUMENTS)
        page = browser.new_page(locale="en-GB", timezone_id="Europe/London")
        page.clock.set_fixed_time(MOMENT)
        for name, size, path in list(pictures(page, address)):
            if sys.argv[1:] and name not in sys.argv[1:]:
                continue
            page.set_viewport_size(size)  # type: ignore[arg-type]
            page.goto(address + path)
            reckoned(page)
            shot = Image.open(io.BytesIO(page.screenshot(full_page=True))).convert("RGB")
            shot = shot.crop((0, 0, shot.width, min(shot.height, MOST_HIGH)))
            shot.quantize(COLOURS, dither=Image.Dither.NONE).save(IMAGES / f"{name}.png", optimize=True)
            print(f"{name}: {(IMAGES / f'{name}.png').stat().st_size / 1000:.0f} kB")
        browser.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
