"""A dyer's ladder: planned, dipped, its colours typed, and a piece's forecast that rests on guesses no more."""

from __future__ import annotations

from tests.journeys.phone import Phone

COLOURS = {"1": "60 -5 -17", "2": "51 -4 -20", "4": "42 -2 -22"}
"""Of cotton that takes up less than is guessed (invented)."""


def dipped_through_a_lost_network(phone: Phone) -> None:
    """The first dip without a network, on through a closed tab: its steps go on, its taps are kept and sent later."""
    page, timer = phone.page, lambda name: phone.page.locator(f'[data-part="{name}"]')
    assert "all 3 go in" in phone.said()
    where, name = page.url.removeprefix(phone.address), page.locator("h1").inner_text()
    page.context.set_offline(True)
    timer("in").get_by_role("button").click()
    assert "The strip marked 1 is done" in phone.said()
    timer("out").get_by_role("button").click()
    assert "the strips marked 2, 4 go in" in phone.said()
    timer("failed").wait_for(state="visible")
    page.context.set_offline(False)
    page.goto("about:blank")
    phone.complaints.clear()
    phone.open("/")
    assert f"Not sent yet: {name}" in phone.said()
    phone.open(where)
    page.locator("[data-dips][data-done='1']").wait_for()
    assert "the strips marked 2, 4 go in" in phone.said() and "Dip 1, " in phone.said()


def test_a_forecast_goes_from_guesses_to_the_dyer_s_own(phone: Phone) -> None:
    phone.open("/cloth/add/")
    phone.type("name", "Apron")
    phone.type("mass", "300 g")
    phone.page.select_option("[name=fibre]", "cotton")
    phone.press("Write it down")
    phone.press("How deep it gets")
    asked = {"source": "typed", "active_g_per_l": "1.2", "bath": "15 L", "dips": "4"}
    piece = phone.page.url.removeprefix(phone.address).partition("?")[0]
    forecast = f"{piece}?" + "&".join(f"{name}={text.replace(' ', '+')}" for name, text in asked.items())
    phone.open(forecast)
    assert "of cotton you have no ladder" in phone.said()
    guessed = phone.page.locator(".call h2").first.inner_text()

    phone.press("Plan a ladder of it")
    phone.page.select_option("[name=vat]", "")
    for name, text in {"bath": "15 L", "active_g_per_l": "1.2", "active_sd_pct": "10", "dips": "1 2 4"}.items():
        phone.type(name, text)
    phone.press("Plan it")
    phone.press("At the vat: what goes in now")
    dipped_through_a_lost_network(phone)
    phone.press("The ladder")

    phone.press("Masses and colours")
    for dips, colour in COLOURS.items():
        strip = phone.page.locator("fieldset.entry", has_text=f"with {dips} dip")
        strip.get_by_label("Colour: L, a, b").fill(colour)
    phone.press("Write it down")
    phone.press("All are measured: let forecasts learn from it")
    assert "before these swatches it was" in phone.said()

    phone.open(forecast)
    assert "your 1 ladder of cotton, 3 strips" in phone.said()
    assert phone.page.locator(".call h2").first.inner_text() != guessed
