"""The same form sent twice, by a double tap or after a lost network, is written once."""

from datetime import timedelta
from uuid import UUID, uuid4

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.actions import sending
from bluewright.journal.models import Bed, Garden, Reading, Sent, Steep
from tests.cast import moment, typed
from tests.web.checks import url

pytestmark = pytest.mark.django_db


def look(token: object) -> dict[str, object]:
    return {"taken_at": typed(moment(1)), "limpness": "2", "once": str(token)}


def test_a_look_sent_twice_is_one_look_and_both_answers_lead_to_the_tub(client: Client, steeping: Steep) -> None:
    where, token, before = url("tubs.look", key=steeping.pk), uuid4(), steeping.readings.count()
    first = client.post(where, look(token))
    again = client.post(where, look(token), follow=True)
    assert first["Location"] == url("tubs.show", key=steeping.pk) == again.redirect_chain[0][0]
    assert steeping.readings.count() == before + 1
    assert "written down already" in again.content.decode()


def test_another_form_is_another_look(client: Client, steeping: Steep) -> None:
    before = steeping.readings.count()
    for _ in range(2):
        client.post(url("tubs.look", key=steeping.pk), look(uuid4()))
    assert steeping.readings.count() == before + 2


def test_a_form_with_a_mistake_is_sent_again_when_it_is_mended(client: Client, garden: Garden) -> None:
    token, entry = str(uuid4()), {"plant": "woad", "origin": "sown", "area": ""}
    assert client.post(url("beds.add"), {**entry, "name": "", "once": token}).status_code == 422
    assert client.post(url("beds.add"), {**entry, "name": "East", "once": token}).status_code == 302
    assert Bed.objects.filter(garden=garden, name="East").count() == 1


@pytest.mark.parametrize("token", ["", "no key", "0" * 500])
def test_a_form_without_a_key_of_its_own_is_written_all_the_same(client: Client, steeping: Steep, token: str) -> None:
    client.post(url("tubs.look", key=steeping.pk), look(token))
    assert not Sent.objects.exists()
    assert Reading.objects.filter(steep=steeping, limpness=2, taken_at=moment(1)).count() == 1


def test_each_form_that_adds_has_a_key_of_its_own(client: Client, steeping: Steep) -> None:
    pages = [client.get(url("tubs.look", key=steeping.pk)), client.get(url("beds.add")), client.get(url("tubs.begin"))]
    keys = {UUID(page.content.decode().split('name="once" value="')[1][:36]) for page in pages}
    assert len(keys) == 3


def test_a_second_sending_waits_for_the_first(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    token = uuid4()
    assert sending.arrive(token) is None
    monkeypatch.setattr(sending.time, "sleep", lambda _s: sending.settle(token, led_to="/tubs/"))
    assert sending.arrive(token) == "/tubs/"


def test_where_nothing_came_of_the_first_the_second_takes_its_place(
    garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    token = uuid4()
    assert sending.arrive(token) is None
    monkeypatch.setattr(sending.time, "sleep", lambda _s: sending.settle(token, led_to=""))
    assert sending.arrive(token) is None
    assert Sent.objects.filter(pk=token, led_to="").exists()


def test_keys_are_forgotten_after_thirty_days(garden: Garden) -> None:
    old = Sent.objects.create(token=uuid4(), arrived_at=timezone.now() - timedelta(days=31), led_to="/")
    sending.arrive(uuid4())
    assert not Sent.objects.filter(pk=old.pk).exists()


def test_a_view_that_fails_leaves_the_form_free_to_be_sent_again(
    client: Client, steeping: Steep, monkeypatch: pytest.MonkeyPatch
) -> None:
    from bluewright.journal.actions import steeps

    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("in the middle")

    token = uuid4()
    with monkeypatch.context() as patched:
        patched.setattr(steeps, "add_reading", broken)
        with pytest.raises(RuntimeError, match="in the middle"):
            client.post(url("tubs.look", key=steeping.pk), look(token))
    assert client.post(url("tubs.look", key=steeping.pk), look(token))["Location"] == url("tubs.show", key=steeping.pk)
