"""`/batches/<key>/change/`: another name, another pH to aim at."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Change, Steep
from tests import cast
from tests.web.checks import NOBODY, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def batch(strained: Steep) -> Batch:
    return cast.a_batch(strained.strains.get())


def where(batch: Batch) -> str:
    return url("batches.change", key=batch.pk)


def test_it_is_changed_and_what_it_was_is_kept(client: Client, batch: Batch) -> None:
    response = client.post(where(batch), {"name": "Second", "target_ph": "10,2", "note": "late"})
    assert response["Location"] == url("batches.show", key=batch.pk)
    batch.refresh_from_db()
    assert (batch.name, batch.target_ph, batch.note) == ("Second", 10.2, "late")
    assert Change.objects.get(row_id=batch.pk, verb="change").before["name"] == "Batch 9"


@pytest.mark.parametrize(("field", "text", "says"), [("name", "", "required"), ("target_ph", "15", "less than")])
def test_a_mistake_keeps_what_was_typed(client: Client, batch: Batch, field: str, text: str, says: str) -> None:
    typed = {"name": "Second", "target_ph": "9.5", "note": ""} | {field: text}
    refused(client, where(batch), typed, field=field, says=says)


def test_it_shows_what_it_is_now(client: Client, batch: Batch) -> None:
    assert client.get(where(batch)).context["form"]["name"].value() == batch.name


def test_wrong_keys_and_strangers(client: Client, batch: Batch, strangers_tub: Steep) -> None:
    assert client.get(url("batches.change", key=NOBODY)).status_code == 404
    assert client.post(where(cast.a_batch(strangers_tub.strains.get())), {"name": "Mine"}).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("batches.change", key=NOBODY))


def test_other_methods_are_refused(client: Client, batch: Batch) -> None:
    only(client, where(batch), "get", "post")
