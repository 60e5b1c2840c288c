"""Somebody new: from an empty garden to a weighed jar with its label, on a phone; two tubs joined, on a laptop."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.journeys.phone import Phone, page_of, serving

LAPTOP = {"viewport": {"width": 1200, "height": 800}, "has_touch": False}


@pytest.fixture(scope="module")
def home(empty_home: Path) -> Path:
    """Nothing yet."""
    return empty_home


@pytest.fixture(scope="module")
def server(home: Path) -> Iterator[str]:
    """A server as a newcomer starts it."""
    with serving(home) as address:
        yield address


@pytest.fixture
def laptop(browser: Any, server: str) -> Iterator[Phone]:
    with page_of(browser, **LAPTOP) as page:
        yield Phone(page, server)


def ago(hours: float) -> str:
    """So many hours ago by the clock of this machine, as the browser's own field takes it."""
    return (datetime.now() - timedelta(hours=hours)).strftime("%Y-%m-%dT%H:%M")


def begin_garden(grower: Phone, name: str) -> None:
    grower.open("/gardens/")
    grower.type("name", name)
    grower.press("Begin")


def pick(grower: Phone, leaf: str, *, hours_ago: float) -> None:
    grower.open("/pickings/add/")
    grower.type("picked_at", ago(hours_ago))
    grower.type("leaf", leaf)
    grower.press("Write it down")


def steep(grower: Phone, name: str, *, hours_ago: float, water: str) -> None:
    """Put what was picked last into a tub."""
    grower.press("Put it in a tub")
    grower.type("name", name)
    grower.type("started_at", ago(hours_ago))
    grower.type("water", water)
    grower.press("Begin")


def strain(grower: Phone, *, hours_ago: float, liquor: str) -> None:
    grower.press("Strain it")
    grower.type("strained_at", ago(hours_ago))
    grower.type("liquor", liquor)
    grower.press("Strained")


def mistaken(grower: Phone, button: str, *, says: str, field: str, typed: str) -> None:
    """Press a button with something wrong in a field: it is said what, and what was typed stands there still."""
    with grower.page.expect_navigation():
        grower.page.locator("main").get_by_role("button", name=button).click()
    assert says in grower.said()
    assert grower.page.locator(f"[name={field}]").first.input_value() == typed
    assert [line.split()[0] for line in grower.refused] == ["422"]
    grower.refused.clear()
    grower.page.wait_for_load_state("networkidle")
    grower.complaints[:] = [line for line in grower.complaints if "422" not in line]


def choose(grower: Phone, sign: str, level: int) -> None:
    grower.page.locator(f"label:has(input[name={sign}][value='{level}'])").click()


def stage(grower: Phone, name: str) -> None:
    """Follow the link to a stage, which stands on every page of a batch."""
    with grower.page.expect_navigation():
        grower.page.locator(".stages").get_by_role("link", name=name).click()
    grower.check()


def test_from_an_empty_garden_to_a_labelled_jar(phone: Phone) -> None:
    begin_garden(phone, "Back garden")
    from_the_bed_to_the_tub(phone)
    look_and_strain(phone)
    add_alkali(phone)
    air(phone)
    settle_and_wash(phone)
    dry_and_fill(phone)
    phone.press("label")
    assert "Jar 1" in phone.said()
    assert phone.page.pdf(format="A4").startswith(b"%PDF")


def from_the_bed_to_the_tub(phone: Phone) -> None:
    phone.open("/beds/")
    phone.press("Write down a bed")
    phone.type("name", "By the wall")
    phone.type("area", "6 kg")
    mistaken(phone, "Write it down", says="a mass, not an area", field="area", typed="6 kg")
    phone.type("area", "6 m2")
    phone.press("Write it down")
    assert "By the wall" in phone.said()

    pick(phone, "4,5 kg", hours_ago=80)
    steep(phone, "Blue bin", hours_ago=78, water="30")
    assert "in 30 L of water" in phone.said()
    assert "Look again" in phone.said() or "Strain" in phone.said()


def look_and_strain(phone: Phone) -> None:
    phone.press("Quick look")
    phone.type("temp", "170")
    mistaken(phone, "Write it down", says="170 C cannot be", field="temp", typed="170")
    phone.type("temp", "17")
    choose(phone, "scum", 2)
    choose(phone, "blue_cast", 2)
    phone.press("Write it down")
    assert "tub 17 C" in phone.said()

    strain(phone, hours_ago=75, liquor="28")
    phone.press("Make a batch of it")
    phone.type("name", "First blue")
    phone.type("begun_at", ago(74))
    phone.press("Begin")
    assert "add the alkali" in phone.said()


def add_alkali(phone: Phone) -> None:
    phone.press("Open its alkali")
    phone.press("Put an alkali in")
    phone.page.select_option("[name=kind]", "soda_ash")
    phone.type("name", "Soda, made up")
    phone.type("strength", "50 g in a bucket")
    mistaken(
        phone, "Write it down", says="'50 g in a bucket' is no strength", field="strength", typed="50 g in a bucket"
    )
    phone.type("strength", "50 g in 1 L")
    phone.press("Write it down")
    entry = phone.page.locator("form.entry[action*='/dose/']").first
    entry.locator("[name=amount]").fill("600")
    entry.locator("[name=ph]").fill("9,4")
    phone.press("It is in")
    assert "That is enough: pH 9.4" in phone.said()


def air(phone: Phone) -> None:
    phone.press("Air it")
    phone.type("temp", "17")
    phone.press("Write it down")
    phone.press("Poured from vessel to vessel")
    phone.type("height", "50")
    phone.press("Write it down")
    for _ in range(15):
        phone.page.locator('[data-part="tap"]').click()
    choose(phone, "foam", 3)
    phone.press("Write it down")
    assert "after 15 pours" in phone.said()
    phone.press("It is done")
    assert "Go on pouring" not in phone.said()


def settle_and_wash(phone: Phone) -> None:
    phone.press("Let it settle")
    phone.press("Left to stand")
    phone.type("depth", "30")
    phone.press("Write it down")
    assert "30 cm deep" in phone.said()
    phone.press("Decant it")
    phone.type("left", "1,5")
    choose(phone, "blue_in_decant", 0)
    phone.press("Decanted")
    phone.press("Put fresh water on")
    phone.type("refill", "6")
    phone.press("Write it down")
    phone.press("Decant it")
    phone.type("left", "1")
    phone.press("Decanted")
    assert "1 wash done" in phone.said()


def dry_and_fill(phone: Phone) -> None:
    stage(phone, "Dry")
    phone.press("Put a dish to dry")
    phone.type("dish", "212")
    phone.type("total", "200")
    mistaken(phone, "Write it down", says="", field="total", typed="200")
    phone.type("total", "352")
    phone.press("Write it down")
    assert "dust mask" in phone.said()
    phone.press("It is dry")

    stage(phone, "Jar")
    phone.page.locator("main input[name^=g_]").first.fill("12,5")
    phone.type("name", "Jar 1")
    phone.press("Fill")
    assert re.search(r"12[,.]5 g", phone.said())


def test_two_tubs_joined_on_a_laptop(laptop: Phone) -> None:
    begin_garden(laptop, "Allotment")
    for name, water in (("North tub", "30 L"), ("South tub", "25 L")):
        pick(laptop, "4 kg", hours_ago=80)
        steep(laptop, name, hours_ago=78, water=water)
        strain(laptop, hours_ago=5, liquor="24 L")
    laptop.open("/batches/")
    laptop.press("Begin or join a batch")
    for box in laptop.page.locator("main input[name=strains]").all():
        box.check()
    laptop.type("name", "Both")
    laptop.type("liquor", "10 L")
    mistaken(laptop, "Begin", says="one tub", field="liquor", typed="10 L")
    laptop.type("liquor", "")
    laptop.press("Begin")
    assert "48 L" in laptop.said()
    assert "North tub" in laptop.said()
    assert "South tub" in laptop.said()
    laptop.open("/batches/begin/")
    assert laptop.page.locator("main input[name=strains]").count() == 0
    assert "Both" in laptop.said(), "what is poured already can still be joined as a batch"
