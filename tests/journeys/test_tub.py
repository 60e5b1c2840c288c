"""A grower with a phone: looks at a tub, takes the look back, strains, thinks again."""

from __future__ import annotations

from tests.journeys.phone import Phone


def looks_of(phone: Phone) -> int:
    return int(phone.page.locator(".story form").count())


def test_a_look_its_undo_and_a_straining_thought_better_of(phone: Phone) -> None:
    phone.open("/")
    assert "Tub 3" in phone.said()

    phone.press("Open the tub Tub 3")
    forecast, looks = phone.page.locator(".call").inner_text(), looks_of(phone)
    assert "of the best" in forecast

    phone.press("Quick look")
    phone.type("temp", "64 F")
    for sign, level in (("blue_cast", 3), ("scum", 3)):
        phone.page.locator(f"label:has(input[name={sign}][value='{level}'])").click()
    phone.press("Write it down")
    assert looks_of(phone) == looks + 1
    assert "64 F" in phone.said()
    fresh = phone.page.locator(".call").inner_text()
    assert fresh != forecast

    phone.press("Take out the look of")
    assert looks_of(phone) == looks
    assert "64 F" not in phone.said()
    phone.press("Undo")
    assert looks_of(phone) == looks + 1
    assert "64 F" in phone.said()

    phone.press("Strain it")
    phone.type("liquor", "38 L")
    phone.press("Strained")
    assert "38 L" in phone.said()
    phone.press("It was not strained after all")
    assert phone.page.get_by_role("link", name="Strain it").count() == 1


def test_every_other_page_fits_the_phone(phone: Phone) -> None:
    for path in ("/beds/", "/beds/add/", "/pickings/", "/pickings/add/", "/tubs/", "/tubs/begin/", "/weather/", "/"):
        phone.open(path)


def test_a_mistake_keeps_the_typing_and_still_fits(phone: Phone) -> None:
    phone.open("/beds/add/")
    phone.type("name", "East")
    phone.type("area", "5 kg")
    with phone.page.expect_navigation():
        phone.page.get_by_role("button", name="Write it down").click()
    assert phone.page.locator("[name=area]").input_value() == "5 kg"
    assert phone.page.locator("[name=name]").input_value() == "East"
    assert [line.split()[0] for line in phone.refused] == ["422"]
