"""Every page in a real browser, by eye, thumb and keyboard, wide, narrow or read aloud."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.test import Client

from tests.journeys.phone import browsing, page_of, serving
from tests.journeys.walk import NO_PAGES, Walk, look, walk
from tests.web.intake.sent import lines
from tests.web.test_access import where
from tests.web.test_every_page import NAMES

PLANT = """
import django
django.setup()
from django.utils import timezone
from bluewright.journal.actions import keeping
from bluewright.journal.bridge import scheduling
from bluewright.journal.models import Assay, Batch, Garden, HomeTest, Ladder, Steep, Strain, Vat
from tests import cast
from tests.web.measuring import a_written_cloth, written
from tests.web.visitors import a_person
garden = Garden.objects.get()
written(garden, of=Steep.objects.filter(garden=garden)[0])
cast.a_photo(garden, of=Steep.objects.filter(garden=garden)[0], kind="tub", width_px=700)
keeping.delete(cast.a_photo(garden, of=Steep.objects.filter(garden=garden)[0], kind="tub"), by=None)
a_person()
strain = Strain.objects.filter(steep__garden=garden).latest("strained_at")
cast.a_batch(strain, liquor_l=[10.0], begun_at=timezone.now())
scheduling.reckon(garden, by=None, quick=True)
cast.a_vat_poured(Vat.objects.get(garden=garden, name="The crock"), volume_l=0.5, volume_typed="0.5 L")
print(Batch.objects.filter(standings__decanted_at__isnull=False)[0].pk)
print(Batch.objects.filter(airings__isnull=False, standings__isnull=True)[0].pk)
print(Assay.objects.filter(jar__garden=garden)[0].pk)
ladder = Ladder.objects.filter(garden=garden)[0]
a_written_cloth(garden, of=ladder, kind="ladder")
print(ladder.pk)
print(HomeTest.objects.filter(piece__garden=garden)[0].piece_id)
"""
"""What the invented season does not hold: photos, a person, liquor to be dosed, a schedule, a heel poured on,
what was taken out.

Prints a batch that was decanted, one that is being aired, an assay, a ladder and a piece of cloth that was tried.
"""
LEARNED_IN_S = 300


@pytest.fixture(scope="module")
def server(home: Path) -> Iterator[str]:
    """A server that reckons beside the pages what the season taught."""
    with serving(home) as address:
        yield address


@pytest.fixture(scope="module")
def walked(server: str, home: Path) -> Walk:
    told = os.environ | {"BLUEWRIGHT_HOME": str(home), "DJANGO_SETTINGS_MODULE": "bluewright.web.settings"}
    done = subprocess.run([sys.executable, "-c", PLANT], env=told, capture_output=True, text=True, check=True)
    with browsing() as browser, page_of(browser) as page:
        bring_in(page, server, "one.csv")
        page.select_option("[name=zone]", "garden")
        with page.expect_navigation():
            page.get_by_role("button", name="bring it in").click()
        previewed = bring_in(page, server, "two.csv")
        stood, aired, assay, ladder, piece = done.stdout.split()
        things = (f"/washing/{stood}/acid/", f"/airing/{aired}/", f"/assays/{assay}/", f"/ladders/{ladder}/",
                  f"/cloth/{piece}/", "/learned/")  # fmt: skip
        starts = ("/", previewed, *things)
        wait_until_learned(page, server)
        found = walk(page, server, starts=starts)
        page.set_extra_http_headers({"X-Forwarded-For": "192.0.2.7"})
        page.goto(f"{server}/door/")
        look(page, "/door/", found, keys=True)
        found.opened["door.come_in"] += 1
    return found


def wait_until_learned(page: Any, server: str) -> None:
    """What the tubs taught is worked out beside the pages; only then it can be given away."""
    give_up = time.monotonic() + LEARNED_IN_S
    while not page.request.get(f"{server}/learned/", params={"as": "json"}).json()["answer"]:
        assert time.monotonic() < give_up, "nothing was learned in time"
        page.wait_for_timeout(1000)


def bring_in(page: Any, server: str, name: str) -> str:
    """Send a logger's file; the address of its preview."""
    page.goto(f"{server}/intake/add/")
    page.select_option("[name=of]", "air")
    page.set_input_files("[name=file]", {"name": name, "mimeType": "text/csv", "buffer": lines().encode()})
    with page.expect_navigation():
        page.locator("main form button").last.click()
    return str(page.url).removeprefix(server)


@pytest.mark.django_db
def test_every_page_is_opened_or_says_why_not(walked: Walk) -> None:
    """A GET of whatever only takes posts is refused with 405, even with keys that nothing has."""
    client = Client(REMOTE_ADDR="127.0.0.1")
    pages = {name for name in NAMES if client.get(where(name)).status_code != 405}
    assert pages - set(walked.opened) == set(NO_PAGES)


@pytest.mark.parametrize(
    ("kind", "what"),
    [
        ("bare", "one h1, one main, a language and a title"),
        ("unlabelled", "each field has one label"),
        ("ids", "no two things with one id: a label would lead to the wrong one"),
        ("described", "what a field names as its help or its mistake is there"),
        ("axe", "nothing that axe finds, with WCAG 2.2 AA, and 7:1 of AAA, at 390 and at 1200 px"),
        ("wide", "nothing beyond the screen's edge, down to 320 px and at twice the size"),
        ("small", "44 px for every thumb"),
        ("keys", "Tab comes to every control"),
        ("focus", "where the focus is can be seen"),
        ("complaints", "nothing that the browser complains of"),
        ("refused", "nothing missing"),
        ("elsewhere", "nothing asked of another host"),
    ],
)  # fmt: skip
def test_on_every_page_there_is(walked: Walk, kind: str, what: str) -> None:
    assert not walked.trouble[kind], "\n".join([what, *walked.trouble[kind]])
