"""`/batches/<key>/end/`: give a batch up, with the reason."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Steep
from tests import cast
from tests.web.checks import NOBODY, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def batch(strained: Steep) -> Batch:
    return cast.a_batch(strained.strains.get())


def where(batch: Batch) -> str:
    return url("batches.end", key=batch.pk)


def test_it_is_given_up_with_its_reason_and_can_go_on(client: Client, batch: Batch) -> None:
    typed = {"ended_at": cast.typed(cast.moment()), "ended_why": "it smelled of rot"}
    response = client.post(where(batch), typed, follow=True)
    batch.refresh_from_db()
    assert batch.ended_at == cast.moment()
    page = response.context["page"]
    assert "it smelled of rot" in page.head.over
    assert (page.ended, page.can_end) == (True, False)
    assert url("batches.go_on", key=batch.pk) in response.content.decode()


@pytest.mark.parametrize(
    ("field", "text", "says"), [("ended_why", "", "required"), ("ended_at", "2999-01-01T08:00", "still to come")]
)
def test_a_mistake_keeps_what_was_typed(client: Client, batch: Batch, field: str, text: str, says: str) -> None:
    typed = {"ended_at": cast.typed(cast.moment()), "ended_why": "spilt"} | {field: text}
    refused(client, where(batch), typed, field=field, says=says)
    batch.refresh_from_db()
    assert batch.ended_at is None


def test_wrong_keys_and_strangers(client: Client, batch: Batch, strangers_tub: Steep) -> None:
    assert client.get(url("batches.end", key=NOBODY)).status_code == 404
    assert client.get(where(cast.a_batch(strangers_tub.strains.get()))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("batches.end", key=NOBODY))


def test_other_methods_are_refused(client: Client, batch: Batch) -> None:
    only(client, where(batch), "get", "post")
