"""A grower with wet hands: taps at each pour, closes the tab, comes back, and nothing is lost."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.journeys.phone import Phone

TAP = '[data-part="tap"]'
UNTIL_MS = 15_000


@pytest.fixture
def counter(phone: Phone) -> Callable[[], int]:
    """How many pours the phone shows."""
    return lambda: int(phone.page.locator('[data-part="pours"]').inner_text())


def server_copy(phone: Phone) -> dict[str, Any]:
    found: dict[str, Any] = phone.page.evaluate(
        "async () => (await (await fetch(location.pathname + '?as=json')).json()).counter"
    )
    return found


WRITE_BATCHES = """
import django
django.setup()
from django.utils import timezone
from bluewright.journal.actions.batches import LiquorIn, begin_batch
from bluewright.journal.models import Batch, Strain
strain = Strain.objects.filter(steep__garden__invented=True).order_by("strained_at")[0]
for number in range(8):
    batch = Batch(garden=strain.steep.garden, name=f"Crock {number}", begun_at=timezone.now())
    print(begin_batch(batch, liquor=[LiquorIn(source=strain, liquor_l=8.0, liquor_typed="8 L")], by=None).pk)
"""


@pytest.fixture(scope="module")
def batches(home: Path) -> Iterator[str]:
    """Keys of batches of the invented garden's strained liquor, written beside the running server."""
    told = os.environ | {"BLUEWRIGHT_HOME": str(home), "DJANGO_SETTINGS_MODULE": "bluewright.web.settings"}
    done = subprocess.run([sys.executable, "-c", WRITE_BATCHES], env=told, capture_output=True, text=True, check=True)
    return iter(done.stdout.split())


@pytest.fixture
def batch(batches: Iterator[str]) -> str:
    """The key of a batch that no other test works on."""
    return next(batches)


def begin_pouring(phone: Phone, batch: str) -> None:
    phone.open(f"/airing/{batch}/")
    phone.type("temp", "17 C")
    phone.press("Write it down")
    phone.press("Poured from vessel to vessel")
    phone.press("Write it down")


def test_taps_a_reload_and_the_server_s_copy_agree(phone: Phone, batch: str, counter: Callable[[], int]) -> None:
    phone.open(f"/airing/{batch}/")
    phone.type("temp", "17 C")
    phone.press("Write it down")
    phone.press("Poured from vessel to vessel")
    phone.type("height", "60 cm")
    phone.press("Write it down")
    high = phone.page.locator(TAP).bounding_box()
    assert high is not None
    assert high["height"] >= 120
    assert high["width"] >= 0.9 * (390 - 2 * 16 - 2 * 14)

    for _ in range(12):
        phone.page.locator(TAP).click()
    assert counter() == 12
    phone.page.get_by_role("button", name="one less").click()
    phone.page.reload()
    assert counter() == 11, "kept in the browser, whatever the server has heard"
    phone.page.locator('[data-part="saved"]').wait_for(timeout=UNTIL_MS)
    assert server_copy(phone)["pours"] == 11
    assert "In pours" in phone.page.locator("#answer").inner_text()
    phone.check()


def test_without_the_server_taps_are_kept_and_sent_later(phone: Phone, batch: str, counter: Callable[[], int]) -> None:
    begin_pouring(phone, batch)
    before = counter()
    phone.page.context.set_offline(True)
    for _ in range(6):
        phone.page.locator(TAP).click()
    phone.page.get_by_text("it goes on trying").wait_for(timeout=UNTIL_MS)
    assert counter() == before + 6
    phone.page.context.set_offline(False)
    phone.page.locator('[data-part="saved"]').wait_for(timeout=UNTIL_MS)
    assert server_copy(phone)["pours"] == before + 6


def test_the_clock_runs_on_over_a_reload_and_pauses(phone: Phone, batch: str) -> None:
    begin_pouring(phone, batch)
    phone.page.locator(TAP).click()
    phone.page.get_by_role("button", name="pause the clock").wait_for()
    phone.page.reload()
    pause = phone.page.get_by_role("button", name="pause the clock")
    pause.wait_for()
    phone.page.wait_for_timeout(1500)
    pause.click()
    phone.page.locator('[data-part="saved"]').wait_for(timeout=UNTIL_MS)
    assert 0.02 <= server_copy(phone)["minutes"] < 5


def test_the_numbers_can_be_typed_lower_and_the_phone_follows(
    phone: Phone, batch: str, counter: Callable[[], int]
) -> None:
    begin_pouring(phone, batch)
    for _ in range(5):
        phone.page.locator(TAP).click()
    phone.page.get_by_text("Type the numbers").click()
    phone.type("pours", "3")
    phone.type("minutes", "2")
    phone.press("Save")
    assert counter() == 3
    assert server_copy(phone)["pours"] == 3


def test_a_look_takes_the_count_along_and_the_end_can_be_taken_back(
    phone: Phone, batch: str, counter: Callable[[], int]
) -> None:
    begin_pouring(phone, batch)
    for _ in range(3):
        phone.page.locator(TAP).click()
    pours = counter()
    for sign, level in (("foam", 1), ("liquor", 2)):
        phone.page.locator(f"label:has(input[name={sign}][value='{level}'])").click()
    phone.press("Write it down")
    assert f"after {pours} pours" in phone.said()
    assert server_copy(phone)["pours"] == pours
    phone.press("It is done")
    assert "Aired; done" in phone.said()
    phone.press("It was not done after all")
    assert counter() == pours


def test_from_settling_to_the_dish_every_page_fits_and_each_step_can_be_taken(phone: Phone, batch: str) -> None:
    phone.open(f"/settling/{batch}/")
    phone.press("Left to stand")
    phone.type("depth", "30 cm")
    phone.press("Write it down")
    assert "No use looking before" in phone.said()
    phone.type("height", "29 cm")
    phone.press("Write it down")
    assert "edge 29 cm" in phone.said()

    phone.press("Decant it")
    phone.type("left", "1.2 L")
    phone.page.locator("label:has(input[name=blue_in_decant][value='1'])").click()
    phone.press("Decanted")
    assert "a breath of blue" in phone.said()
    phone.press("Undo")
    assert "a breath of blue" not in phone.said()
    phone.press("Undo")
    assert "a breath of blue" in phone.said()

    phone.type("refill", "8 L")
    phone.press("Count the washes")
    assert "Washes still to do: 3" in phone.said()
    phone.press("Put fresh water on")
    phone.open(f"/washing/{batch}/acid/?kind=vinegar&chalk=9+g&lime=0")
    assert "bleach" in phone.said()

    phone.open(f"/drying/{batch}/")
    phone.press("Put a dish to dry")
    phone.type("dish", "212 g")
    phone.type("total", "352 g")
    phone.press("Write it down")
    assert "dust mask" in phone.said()
    phone.press("It is dry")
    phone.press("It was not dry after all")
