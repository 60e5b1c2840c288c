"""A chart is read off under a finger and with the arrow keys; its figures stand below it."""

from __future__ import annotations

from tests.journeys.phone import Phone


def test_a_chart_is_read_off(phone: Phone) -> None:
    phone.open("/bench/steep-call/")
    chart = phone.page.locator("svg[data-figures]").first
    told = phone.page.locator(".told-off").first
    box = chart.bounding_box()
    assert box is not None
    chart.scroll_into_view_if_needed()
    chart.click(position={"x": box["width"] * 0.5, "y": box["height"] * 0.6})
    middle = told.inner_text()
    assert "share of the best" in middle
    chart.press("ArrowRight")
    assert told.inner_text() != middle
    chart.press("ArrowLeft")
    assert told.inner_text() == middle
    phone.page.locator("summary", has_text="The figures of the chart").first.click()
    shown = phone.page.locator(".figures-of table").first.inner_text()
    assert len(shown.splitlines()) > 10
    assert "share of the best, %" in shown
    phone.check()
