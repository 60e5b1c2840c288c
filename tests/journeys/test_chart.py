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


def test_what_is_folded_is_unfolded_while_it_is_printed(phone: Phone) -> None:
    """Where the style sheet alone cannot do it: browsers tell a page before and after it is printed."""
    phone.open("/costs/")
    shut = "[...document.querySelectorAll('main details')].filter((one) => !one.open).length"
    folded = phone.page.evaluate(shut)
    assert folded
    phone.page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert phone.page.evaluate(shut) == 0
    phone.page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert phone.page.evaluate(shut) == folded
