"""A form half filled in survives a closed tab and a lost network, and is written once however often it is sent."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.journeys.phone import Phone
from tests.web.homes import PLANTED_IN_S


@pytest.fixture(scope="module")
def home(empty_home: Path) -> Path:
    """Nothing yet: the invented garden is filled in by its button."""
    return empty_home


def test_a_closed_tab_and_a_lost_network_cost_nothing(phone: Phone) -> None:
    phone.open("/")
    assert phone.page.url.endswith("/gardens/")
    phone.page.set_default_timeout(PLANTED_IN_S * 1000)
    phone.press("Open the invented garden")
    assert "Tub 3" in phone.said()
    phone.open("/beds/add/")
    phone.type("name", "By the well")
    phone.type("area", "3,5 m2")
    phone.open("/")
    waits = phone.page.locator("[data-drafts]")
    assert "Not sent yet" in waits.inner_text()

    waits.get_by_role("link").click()
    phone.page.wait_for_url("**/beds/add/")
    assert phone.page.locator("[name=name]").input_value() == "By the well"
    assert phone.page.locator("[name=area]").input_value() == "3,5 m2"
    assert "still there" in waits.inner_text()

    phone.page.context.set_offline(True)
    phone.page.get_by_role("button", name="Write it down").click()
    phone.page.wait_for_timeout(300)
    phone.page.context.set_offline(False)
    phone.complaints.clear()
    phone.open("/beds/add/")
    assert phone.page.locator("[name=name]").input_value() == "By the well"
    phone.press("Write it down")
    assert "By the well is written down" in phone.said()
    assert not waits.is_visible()
    phone.open("/compare/add/")
    phone.type("ways", "soda ash\nammonia")
    phone.press("What could it show?")
    assert not waits.is_visible(), "it was answered, and nothing was to be written"
    phone.open("/beds/add/")
    assert phone.page.locator("[name=name]").input_value() == ""
