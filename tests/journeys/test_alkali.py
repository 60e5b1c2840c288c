"""A grower at the tub: an alkali into the cupboard, a jar titrated in steps, the dose in parts until it is enough."""

from __future__ import annotations

from typing import Any

import pytest

from tests.journeys.phone import Phone


@pytest.fixture
def at_the_dose(phone: Phone) -> Phone:
    """The dose page of a batch that was begun from liquor of the invented garden."""
    phone.open("/batches/")
    if phone.page.get_by_role("link", name="First blue").count():
        phone.press("First blue")
    else:
        phone.open("/batches/begin/")
        phone.page.locator("main input[name=strains]").first.check()
        phone.type("name", "First blue")
        phone.press("Begin")
    phone.page.locator(".stages").get_by_role("link", name="Alkali").click()
    phone.page.wait_for_url("**/alkali/*/dose/")
    phone.check()
    return phone


def entry(phone: Phone, form: str, **typed: str) -> None:
    """Type into the fields of one of several forms, and send it."""
    box: Any = phone.page.locator(f"form.entry[action*='/{form}/']").first
    for name, text in typed.items():
        box.locator(f"[name={name}]").fill(text)
    with phone.page.expect_navigation():
        box.locator("button").click()
    phone.check()


def step(phone: Phone, amount: str, ph: str) -> None:
    """A step of the jar: the piece of the page that it changes is fresh in place, without a new page."""
    rows = phone.page.locator("#live tbody tr:not(.figures-of *)")
    had = rows.count()
    phone.type("amount", amount)
    phone.type("ph", ph)
    phone.page.get_by_role("button", name="Write the step down").click()
    rows.nth(had).wait_for()
    phone.check()


def test_from_the_cupboard_to_enough(at_the_dose: Phone) -> None:
    phone = at_the_dose
    dose = phone.page.url.removeprefix(phone.address)
    phone.press("Alkali cupboard")
    phone.press("Put an alkali in")
    phone.page.select_option("[name=kind]", "soda_ash")
    phone.type("name", "soda, made up")
    phone.type("strength", "25 g in 500 mL")
    phone.press("Write it down")
    assert "0.46 mol/L" in phone.said()
    phone.open(dose)
    phone.page.locator("summary").filter(has_text="Wanted").click()
    phone.page.select_option("[name=alkali]", label="soda, made up")
    entry(phone, "aim", target_ph="9,5")
    assert "soda, made up (25 g in 500 mL, 0.46 mol/L)" in phone.said()

    entry(phone, "look", ph="5,8", temp="64 F")
    wide = phone.page.locator(".figures").inner_text()
    phone.press("Begin a jar titration")
    phone.type("sample", "500 mL")
    phone.page.locator("main form button.big").click()
    phone.page.get_by_role("heading", name="Jar titration").wait_for()
    phone.page.evaluate("window.stayed = true")
    step(phone, "2", "6.6")
    for amount, ph in (("2", "7.6"), ("3", "8.9"), ("3", "9.9")):
        before = phone.page.locator("#live .chart").inner_html()
        step(phone, amount, ph)
        assert phone.page.locator("#live .chart").inner_html() != before
    phone.page.get_by_role("button", name="Take out the step of 3 mL, pH 9.9").click()
    phone.page.locator("#live tbody tr:not(.figures-of *)").nth(3).wait_for(state="detached")
    step(phone, "3", "9.6")
    assert phone.page.evaluate("window.stayed"), "the page was loaded anew"

    phone.press("To the tub")
    assert phone.page.locator(".figures").inner_text() != wide
    assert "Never let this liquor" in phone.said()
    entry(phone, "dose", amount="300 mL")
    assert "Read the pH" in phone.said()
    entry(phone, "look", ph="8.6")
    rest = phone.page.locator(".call .large").inner_text()
    entry(phone, "dose", amount=rest, ph="9.4")
    assert "That is enough: pH 9.4" in phone.said()
    phone.press("Undo")
    assert "That is enough" not in phone.said()
    phone.press("Undo")
    assert "That is enough: pH 9.4" in phone.said()


def test_a_mistake_in_a_step_keeps_the_typing(at_the_dose: Phone) -> None:
    phone = at_the_dose
    phone.press("Begin a jar titration")
    phone.type("sample", "0.5 L")
    phone.page.locator("main form button.big").click()
    phone.page.get_by_role("heading", name="Jar titration").wait_for()
    phone.type("amount", "2 kg")
    phone.type("ph", "7")
    phone.page.get_by_role("button", name="Write the step down").click()
    phone.page.locator("#live .why").first.wait_for()
    assert phone.page.locator("[name=amount]").input_value() == "2 kg"
    assert [line.split()[0] for line in phone.refused] == ["422"]
