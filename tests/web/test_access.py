"""Who is let in: whoever sits at the machine, and phones that came by the door link."""

import pytest
from django.conf import settings
from django.test import Client

pytestmark = pytest.mark.django_db
PHONE = "192.168.1.20"


def test_at_the_machine_nobody_is_asked() -> None:
    assert Client(REMOTE_ADDR="127.0.0.1").get("/gardens/").status_code == 200
    assert Client(REMOTE_ADDR="::1").get("/gardens/").status_code == 200


def test_a_phone_without_the_link_sees_only_the_way_to_the_door() -> None:
    phone = Client(REMOTE_ADDR=PHONE)
    for path in ("/", "/gardens/", "/tubs/", "/beds/add/"):
        response = phone.get(path)
        assert response.status_code == 403
        assert "door link" in response.content.decode()
    assert phone.post("/gardens/demo/").status_code == 403


@pytest.mark.parametrize("key", ["wrong", "", "é"])
def test_a_wrong_key_opens_nothing(key: str) -> None:
    phone = Client(REMOTE_ADDR=PHONE)
    assert phone.get(f"/door/{key}/").status_code in {403, 404}
    assert phone.get("/gardens/").status_code == 403


def test_the_door_link_lets_a_phone_in_and_keeps_it_in() -> None:
    phone = Client(REMOTE_ADDR=PHONE)
    assert phone.get(f"/door/{settings.DOOR_KEY}/").status_code == 302
    assert phone.get("/gardens/").status_code == 200


def test_a_changed_key_locks_phones_out(settings: object) -> None:
    phone = Client(REMOTE_ADDR=PHONE)
    phone.get(f"/door/{settings.DOOR_KEY}/")  # type: ignore[attr-defined]
    settings.DOOR_KEY = "another"  # type: ignore[attr-defined]
    assert phone.get("/gardens/").status_code == 403


def test_a_strange_host_name_is_refused() -> None:
    assert Client(HTTP_HOST="evil.example").get("/gardens/").status_code == 400


def test_no_page_may_fetch_from_elsewhere() -> None:
    response = Client().get("/gardens/")
    assert "default-src 'self'" in response["Content-Security-Policy"]
    assert "http://" not in response.content.decode().replace("http://www.w3.org", "")
