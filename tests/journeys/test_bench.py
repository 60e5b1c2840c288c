"""A grower at the bench: every calculator fits the phone and a sheet of paper; a row more, an answer, a mistake."""

from __future__ import annotations

import re

import pytest

from bluewright.web.pages.bench.calculators import TABLE
from tests.journeys.phone import Phone


def test_every_calculator_fits_the_phone_and_prints_on_one_sheet(phone: Phone) -> None:
    phone.open("/bench/")
    links = phone.page.locator("main a")
    paths = [str(links.nth(k).get_attribute("href")) for k in range(links.count())]
    assert len(paths) == len(TABLE)
    for path in paths:
        phone.open(path)
        sheets = re.findall(rb"/Type\s*/Page\b", phone.page.pdf(format="A4"))
        assert len(sheets) == 1, path
        phone.open(f"{path}?blank=1")


def test_another_row_a_reading_and_a_mistake(phone: Phone) -> None:
    phone.open("/bench/filter-time/")
    first = phone.page.locator(".call h2").inner_text()
    phone.press("Another row")
    phone.page.locator("[name='readings.2.after']").fill("1 h 30 min")
    phone.page.locator("[name='readings.2.filtrate']").fill("10 UK pints")
    phone.press("Work it out")
    assert phone.page.locator(".call h2").inner_text() != first
    assert "readings.2.filtrate=10+UK+pints" in phone.page.url
    phone.page.locator("[name='readings.2.filtrate']").fill("10 lb")
    with phone.page.expect_navigation():
        phone.page.get_by_role("button", name="Work it out").click()
    assert phone.page.locator("[name='readings.2.filtrate']").input_value() == "10 lb"
    assert "a mass, not a volume" in phone.said()
    assert [line.split()[0] for line in phone.refused] == ["422"]


@pytest.mark.parametrize("slug", ["steep-call", "alkali-dose"])
def test_every_field_has_a_label(phone: Phone, slug: str) -> None:
    phone.open(f"/bench/{slug}/")
    bare = phone.page.evaluate(
        "[...document.querySelectorAll('main input, main select')].filter(e => e.labels.length != 1).map(e => e.name)"
    )
    assert bare == []
