"""`/gardens/bring-in/`: a garden from a file."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from bluewright.journal import transfer
from bluewright.journal.models import Garden
from tests.journal.test_transfer import gone
from tests.web.checks import only, url

pytestmark = pytest.mark.django_db
WHERE = "/gardens/bring-in/"


def a_file(text: str) -> SimpleUploadedFile:
    return SimpleUploadedFile("garden.json", text.encode(), content_type="application/json")


def test_the_garden_is_here_and_open(client: Client, garden: Garden) -> None:
    text = transfer.take_out(garden)
    gone(garden)
    response = client.post(WHERE, {"file": a_file(text)}, follow=True)
    assert response.redirect_chain == [(url("today"), 302)]
    assert Garden.objects.get().name == garden.name
    assert garden.name in response.content.decode()


def test_a_wrong_file_is_refused_with_the_reason_on_the_page(client: Client) -> None:
    response = client.post(WHERE, {"file": a_file("leaf,kg\n1,2\n")})
    assert response.status_code == 422
    assert "not JSON" in response.content.decode()
    assert "Nothing was written" in response.content.decode()


def test_no_file_is_refused(client: Client) -> None:
    assert client.post(WHERE).status_code == 422


def test_a_file_too_large_is_refused_unread(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("bluewright.web.pages.gardens.forms.MOST_FILE_BYTES", 10)
    response = client.post(WHERE, {"file": a_file("{" + " " * 50 + "}")})
    assert response.status_code == 422
    assert "at most 10" in response.content.decode()


def test_other_methods_are_refused(client: Client) -> None:
    only(client, WHERE, "post")
