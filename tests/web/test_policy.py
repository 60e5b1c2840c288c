"""What goes with every answer, and bodies that are too large."""

import http.client
import os
import re
from pathlib import Path

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.web import policy
from tests.web.running import Browser, server
from tests.web.test_every_page import TEMPLATES
from tests.web.visitors import a_person, visitor

SRC = Path(__file__).parents[2] / "src" / "bluewright"


@pytest.mark.django_db
@pytest.mark.parametrize("path", ["/gardens/", "/nothing/", "/door/", "/static/bluewright.css"])
def test_every_answer_carries_the_headers(path: str) -> None:
    response = Client().get(path)
    policy = dict(part.split(" ", 1) for part in response["Content-Security-Policy"].split("; "))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == policy["style-src"] == policy["connect-src"] == policy["form-action"] == "'self'"
    assert policy["frame-ancestors"] == policy["base-uri"] == "'none'"
    assert "unsafe" not in response["Content-Security-Policy"]
    assert response["X-Content-Type-Options"] == "nosniff"
    assert response["Referrer-Policy"] == "same-origin"
    assert response["Cross-Origin-Opener-Policy"] == response["Cross-Origin-Resource-Policy"] == "same-origin"
    assert "camera=()" in response["Permissions-Policy"]
    response.close()


@pytest.mark.django_db
def test_also_the_answer_to_a_strange_host_carries_them() -> None:
    response = Client().get("/gardens/", HTTP_HOST="evil.example")
    assert response.status_code == 400
    assert "frame-ancestors 'none'" in response["Content-Security-Policy"]


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda p: p.name)
def test_no_template_needs_what_the_policy_forbids(template: Path) -> None:
    text = template.read_text(encoding="utf-8")
    assert not re.search(r"""<style|\bstyle=|\bon[a-z]+=["']|javascript:|<script(?![^>]*\bsrc=)""", text)
    assert not re.search(r"https?://", text)


@pytest.mark.parametrize("chart", sorted((SRC / "charts").glob("*.py")), ids=lambda p: p.name)
def test_no_drawing_needs_what_the_policy_forbids(chart: Path) -> None:
    assert not re.search(r"<style|\bstyle=", chart.read_text(encoding="utf-8"))


@pytest.mark.django_db
def test_cookies_are_not_for_scripts_nor_other_sites_and_over_https_for_https_alone() -> None:
    a_person()
    for secure in (False, True):
        phone = visitor("stranger")
        phone.get("/door/", secure=secure)
        phone.post("/door/", {"name": "Rowan", "passphrase": "wolati-kesuno-dipabe"}, secure=secure)
        assert set(phone.cookies) == {"bluewright_session", "csrftoken"}
        for cookie in phone.cookies.values():
            assert cookie["httponly"]
            assert cookie["samesite"] == "Lax"
            assert bool(cookie["secure"]) == secure


@pytest.mark.django_db
def test_a_body_that_is_too_large_is_refused_in_words(
    client: Client, garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(policy, "MOST_BODY_BYTES", 30_000_000)
    response = client.post("/beds/add/", b"x" * 30_000_001, content_type="application/octet-stream")
    assert response.status_code == 413
    assert "That was 31 MB; 30 MB can be taken at once. Nothing was written." in response.content.decode()


@pytest.mark.django_db
def test_a_stranger_may_send_no_more_than_a_name_and_a_passphrase() -> None:
    response = visitor("stranger").post("/door/", b"x" * 100_001, content_type="text/plain")
    assert response.status_code == 413
    assert "Nothing was written" in response.content.decode()


def test_a_hundred_and_forty_megabytes_over_the_wire_are_answered_in_words(tmp_path: Path) -> None:
    with server(tmp_path) as port, Browser(port) as browser:
        status, _, page = browser.ask("POST", "/gardens/bring-in/", os.urandom(1000) * 140_000)
        assert status == 413
        assert "That was 140 MB" in page
        endless = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
        endless.putrequest("POST", "/gardens/bring-in/")
        endless.putheader("Content-Length", "9000000000")
        endless.endheaders()
        assert endless.getresponse().status == 413
        endless.close()
        assert browser.ask("GET", "/gardens/")[0] == 200
