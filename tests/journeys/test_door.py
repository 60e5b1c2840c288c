"""A helper's phone: let in by the owner, comes in by passphrase, writes a look, and is shut out.

The same server answers owner and helper: a request that says it was passed on counts as one from elsewhere.
"""

from __future__ import annotations

from tests.journeys.phone import Phone

ELSEWHERE = {"X-Forwarded-For": "192.0.2.7"}


def forgive(phone: Phone, status: int) -> None:
    """The one refusal that was meant to be, and the browser's own line about it."""
    assert [line.split()[0] for line in phone.refused] == [str(status)]
    phone.refused.clear()
    phone.complaints[:] = [line for line in phone.complaints if f"status of {status}" not in line]


def come_in(phone: Phone, passphrase: str) -> None:
    phone.type("name", "rowan")
    phone.type("passphrase", passphrase)
    with phone.page.expect_navigation():
        phone.page.get_by_role("button", name="Come in").click()


def test_a_helper_comes_in_writes_and_is_shut_out(phone: Phone) -> None:
    phone.open("/people/")
    phone.type("name", "Rowan")
    phone.press("Let in")
    passphrase = phone.page.locator("[role=status] .once").inner_text()

    phone.page.set_extra_http_headers(ELSEWHERE)
    phone.open("/tubs/")
    assert "This garden is private" in phone.said()
    assert "Marl Bank" not in phone.page.content()
    come_in(phone, "not it at all")
    assert "do not fit together" in phone.said()
    forgive(phone, 422)
    come_in(phone, passphrase)
    phone.check()
    assert phone.page.url.endswith("/tubs/")
    assert "You are Rowan, helper." in phone.page.locator("footer").inner_text()

    phone.press("Tub 3")
    phone.press("Quick look")
    phone.type("temp", "61 F")
    phone.press("Write it down")
    assert "61 F" in phone.said()

    phone.page.set_extra_http_headers({})
    phone.open("/people/")
    phone.press("Shut out")
    assert "Rowan is shut out" in phone.said()
    phone.page.set_extra_http_headers(ELSEWHERE)
    phone.open("/tubs/")
    assert "This garden is private" in phone.said()
