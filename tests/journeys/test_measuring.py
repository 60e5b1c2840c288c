"""Colours by thumb: a photo added, boxes drawn with real touches, the colour read at once, kept, and true."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from bluewright.science.colour.differences import ciede2000
from tests.journeys.phone import THUMB_PX, Phone, page_of
from tests.known_photos import CLOTH, CLOTH_LAB, GREEN_LIQUOR, LIQUOR, WATER, WHITE, WHITE_LAB, a_cloth, two_jars

WIDE, HIGH = 800, 600
AT_ONCE = "#found .call"


@pytest.fixture
def thumb(browser: Any, server: str) -> Iterator[Phone]:
    """A phone that is touched."""
    with page_of(browser, is_mobile=True, device_scale_factor=2) as page:
        yield Phone(page, server)


def drag(page: Any, start: tuple[float, float], end: tuple[float, float]) -> None:
    """A finger from one place of the window to another."""
    session = page.context.new_cdp_session(page)

    def touch(kind: str, *at: tuple[float, ...]) -> None:
        points = [{"x": x, "y": y} for x, y in at]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    touch("touchStart", start)
    for k in range(1, 7):
        touch("touchMove", tuple(a + (b - a) * k / 6 for a, b in zip(start, end, strict=True)))
    touch("touchEnd")
    session.detach()


def on_the_photo(page: Any, x_px: float, y_px: float) -> tuple[float, float]:
    """Where a point of the photo is in the window."""
    ground = page.locator(".ground").bounding_box()
    return ground["x"] + x_px / WIDE * ground["width"], ground["y"] + y_px / HIGH * ground["height"]


def draw(phone: Phone, role: str, box: tuple[int, int, int, int]) -> None:
    """Choose what to put a box on, and draw it a little inside of what it is of."""
    page, (x, y, w, h) = phone.page, box
    page.locator('[data-part="roles"] button', has_text=role).first.click()
    page.wait_for_selector(".ground.armed")
    page.locator(".ground").scroll_into_view_if_needed()
    drag(page, on_the_photo(page, x + 0.1 * w, y + 0.1 * h), on_the_photo(page, x + 0.9 * w, y + 0.9 * h))
    page.wait_for_selector(".ground:not(.armed)")


def a_tub(phone: Phone) -> str:
    """The key of a tub of the invented garden that steeps."""
    phone.open("/tubs/")
    return str(phone.page.locator("main a[href^='/tubs/']:not([href*=begin])").first.get_attribute("href")).split("/")[
        2
    ]


def send(phone: Phone, address: str, data: bytes, tmp_path: Path, words: str) -> None:
    where = tmp_path / "photo.jpg"
    where.write_bytes(data)
    phone.open(address)
    phone.page.set_input_files("input[type=file]", where)
    phone.press(words)


def test_boxes_drawn_by_thumb_give_the_colour_that_the_photo_was_painted_with(thumb: Phone, tmp_path: Path) -> None:
    tub = a_tub(thumb)
    send(thumb, f"/photos/add/tub/{tub}/", a_cloth(), tmp_path, "Add them")
    thumb.page.locator(".photos a").first.tap()
    thumb.press("Measure its colour")
    thumb.page.locator(".numbers:not([open])").wait_for()
    draw(thumb, "Sample", CLOTH)
    draw(thumb, "White paper", WHITE)
    thumb.page.wait_for_selector(AT_ONCE)
    thumb.page.locator("summary", has_text="The white or grey was measured").click()
    thumb.type("white_lab", " ".join(f"{part:g}" for part in WHITE_LAB))
    thumb.type("name", "First dip")
    thumb.page.locator("#found", has_text="L* 38").wait_for()
    high = thumb.page.locator('[data-part="roles"] button').first.bounding_box()["height"]
    assert high >= THUMB_PX
    thumb.check()
    thumb.press("Keep it")
    assert "First dip" in thumb.said()
    page = thumb.page.evaluate("async () => (await (await fetch(location.pathname + '?as=json')).json())")
    row = " ".join(page["found"]["answer"]["tables"][0]["rows"][0][1]).replace("\u2212", "-")
    found = [float(part) for part in re.findall(r"-?\d+\.\d", row)[:3]]
    assert ciede2000(found, CLOTH_LAB) < 0.5, "the truth is what the photo was painted with"


def test_a_box_is_moved_by_thumb_and_by_keys_and_taken_out(thumb: Phone, tmp_path: Path) -> None:
    tub = a_tub(thumb)
    send(thumb, f"/photos/add/tub/{tub}/", a_cloth(seed=2), tmp_path, "Add them")
    thumb.page.locator(".photos a").last.tap()
    thumb.press("Measure its colour")
    draw(thumb, "Sample", CLOTH)
    page, numbers = thumb.page, lambda: [int(k) for k in thumb.page.input_value("[name=samples]").split(", ")]
    x, y, w, h = numbers()
    assert abs(x - 364) <= 6
    assert abs(w - 192) <= 8
    page.locator(".ground").scroll_into_view_if_needed()
    drag(page, on_the_photo(page, x + w / 2, y + h / 2), on_the_photo(page, x + w / 2 - 80, y + h / 2))
    page.wait_for_selector(".drawn.chosen")
    assert numbers()[0] < x - 60
    assert numbers()[2:] == [w, h], "moved, not stretched"
    x, y, w, h = numbers()
    page.locator(".drawn").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Shift+ArrowDown")
    moved = numbers()
    assert moved[0] > x
    assert moved[1:3] == [y, w]
    assert moved[3] > h
    page.keyboard.press("Delete")
    assert page.input_value("[name=samples]") == ""
    page.get_by_role("button", name="Sample").focus()
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.className").startswith("drawn"), "by keys alone a box begins too"
    thumb.check()


def test_a_jar_photographed_goes_into_the_strain_call_and_undo_takes_both_back(thumb: Phone, tmp_path: Path) -> None:
    """Own hand: D = 0.283 in a jar of 7 cm, one part in five: 0.20 for each cm."""
    tub = a_tub(thumb)
    thumb.open(f"/tubs/{tub}/")
    thumb.press("Jar test by photo")
    thumb.press("Take a photo of the jars")
    send(thumb, f"/jarlooks/tub/{tub}/photo/", two_jars(GREEN_LIQUOR), tmp_path, "Go on")
    draw(thumb, "Liquor", LIQUOR)
    draw(thumb, "Water", WATER)
    thumb.type("after_min", "20")
    thumb.type("path", "7 cm")
    thumb.type("dilution_factor", "5")
    thumb.page.locator("#found", has_text="Blue dye is there").wait_for()
    thumb.press("Write it down")
    assert "The strain call reads it." in thumb.said()
    assert "dye index of a jar +0.20 for each cm" in thumb.said()
    thumb.open(f"/tubs/{tub}/")
    assert "dye index of a jar +0.20 for each cm" in thumb.said()
    thumb.open(f"/jarlooks/tub/{tub}/")
    thumb.press("take out")
    thumb.open(f"/tubs/{tub}/")
    assert "dye index of a jar" not in thumb.said()
