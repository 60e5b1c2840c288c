"""Trouble that is nobody's mistake is said in words, and nothing half is kept."""

from __future__ import annotations

import errno
import logging
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.db import OperationalError, connection
from django.test import Client

from bluewright.journal.actions import beds
from bluewright.journal.models import Bed, Garden
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
BED = {"name": "East", "plant": "woad", "origin": "sown"}


@pytest.fixture
def full_disk(garden: Garden) -> Iterator[None]:
    """The database may not grow by a page: SQLite itself then says that the disk is full."""
    with connection.cursor() as cursor:
        (pages,) = cursor.execute("PRAGMA page_count").fetchone()
        cursor.execute(f"PRAGMA max_page_count={pages}")
        yield
        cursor.execute("PRAGMA max_page_count=1000000")


@pytest.mark.django_db(transaction=True)
def test_a_full_disk_is_said_and_nothing_half_is_kept(client: Client, full_disk: None) -> None:
    written = 0
    while (response := client.post("/beds/add/", BED | {"note": "x" * 500})).status_code == 302:
        written += 1
    assert response.status_code == 507
    assert "The disk is full." in response.content.decode()
    assert Bed.objects.filter(name="East").count() == written


@pytest.mark.parametrize(
    ("error", "status", "says"),
    [
        (OperationalError("database is locked"), 503, "Somebody else was writing"),
        (OperationalError("attempt to write a readonly database"), 500, "may not be written"),
        (OperationalError("database disk image is malformed"), 500, "restore a backup"),
        (OSError(errno.ENOSPC, "No space left on device"), 507, "The disk is full."),
        (OperationalError("no such table"), 500, "fault of the program"),
        (ZeroDivisionError("secret figure 4711"), 500, "fault of the program"),
    ],
)
def test_each_trouble_has_its_words(
    garden: Garden, monkeypatch: pytest.MonkeyPatch, error: Exception, status: int, says: str
) -> None:
    def fail(*_: Any, **__: Any) -> None:
        raise error

    monkeypatch.setattr(beds, "add_bed", fail)
    client = Client(raise_request_exception=False)
    response = client.post("/beds/add/", BED)
    page = response.content.decode()
    assert response.status_code == status
    assert says in page
    assert str(error) not in page


def test_an_error_of_ours_stands_in_the_garden_s_folder(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: Any, **__: Any) -> None:
        raise ZeroDivisionError("by the bed")

    monkeypatch.setattr(beds, "add_bed", fail)
    Client(raise_request_exception=False).post("/beds/add/", BED)
    for handler in logging.getLogger("django").handlers:
        handler.close()
    log = Path(settings.HOME / "trouble.log").read_text(encoding="utf-8")
    assert "ZeroDivisionError: by the bed" in log
    assert "East" not in log


def test_what_is_not_there_is_said_with_the_way_back(client: Client, garden: Garden) -> None:
    response = client.get("/nothing/")
    assert response.status_code == 404
    assert "There is nothing at this address." in response.content.decode()
    assert visitor("onlooker").get("/nothing/").status_code == 404


def test_a_wrong_address_is_said(client: Client) -> None:
    response = client.get("/", HTTP_HOST="evil.example")
    assert response.status_code == 400
    assert "answers only by the addresses" in response.content.decode()
