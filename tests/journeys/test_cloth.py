"""A dyer at the vat with wet hands: scour, five dips by the timer, a lost network, the finish, a swatch, the story."""

from __future__ import annotations

import re
from typing import Any

import pytest

from tests.journeys.phone import Phone

UNTIL_MS = 15_000


@pytest.fixture
def timer(phone: Phone) -> Any:
    """The parts of the dip timer, by name."""
    return lambda name: phone.page.locator(f'[data-part="{name}"]')


def dips(phone: Phone) -> Any:
    """What the garden's machine has of the timer."""
    return phone.page.evaluate("async () => (await (await fetch(location.pathname + '?as=json')).json())")


def begun(phone: Phone) -> str:
    """A piece of linen that is to get five dips, scoured; the address of its page."""
    phone.open("/cloth/add/")
    phone.page.select_option("[name=fibre]", "linen")
    for field, text in (("name", "Apron"), ("mass", "1/2 lb"), ("wanted_dips", "5")):
        phone.type(field, text)
    phone.press("Write it down")
    assert "0 of 5 dips" in phone.said()
    where = phone.page.url.removeprefix(phone.address)
    phone.press("Scour")
    phone.page.select_option("[name=scour]", "boiled")
    phone.press("Write it down")
    return str(where)


def test_five_dips_with_the_timer_and_a_lost_network(phone: Phone, timer: Any) -> None:
    page = phone.page
    where = begun(phone)
    page.clock.install()
    phone.open(f"{where}dips/")
    page.select_option("[name=vat]", label="Class vat")
    timer("in").get_by_role("button").click()
    timer("unsaved").wait_for(state="hidden")
    page.locator("[data-dips]:not([data-dip=''])").wait_for()
    assert timer("in-vat").is_visible() and timer("due-out").is_hidden()
    page.clock.fast_forward(5 * 60_000 + 1000)
    timer("due-out").wait_for(state="visible", timeout=UNTIL_MS)

    page.context.set_offline(True)
    timer("out").get_by_role("button").click()
    timer("failed").wait_for(state="visible", timeout=UNTIL_MS)
    assert timer("in-air").is_visible() and timer("said").is_hidden()
    page.context.set_offline(False)
    page.reload()
    page.locator("[data-dips][data-done='1']").wait_for()
    assert dips(phone)["timer"]["clock"]["done"] == 1
    phone.complaints.clear()

    for done in range(2, 6):
        timer("in").get_by_role("button").click()
        page.locator("[data-dips]:not([data-dip=''])").wait_for()
        timer("out").get_by_role("button").click()
        page.locator(f"[data-dips][data-done='{done}']").wait_for()
    kept = dips(phone)
    assert kept["done"] and len(kept["dips"]) == 5
    phone.check()

    phone.press("Finish it")
    phone.type("after", "8.1 oz")
    phone.press("Write it down")
    phone.press("Type a swatch of it")
    phone.type("lab", "41 -3.5 -20")
    phone.press("Write it down")
    assert "L 41.0, a −3.5, b −20.0" in phone.said().replace("\u00a0", " ")
    phone.press("Its story, to hand on")
    assert "dipped 5 times" in phone.said() and "What we do not know" in phone.said()
    phone.press("Print it")
    printed = page.pdf(format="A4", prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1
