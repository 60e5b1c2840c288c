"""`/alkali/<key>/jar/`: begin a jar titration."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, JarTest, LiquorLook
from tests import cast
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("alkali.jar_test", key=batch.pk)


def entry(alkali: Alkali, **other: object) -> dict[str, object]:
    return {"alkali": str(alkali.pk), "sample": "500", "temp": "64 F", "ph": "5,9", "at": ""} | other


def test_it_is_written_and_the_ph_of_its_liquor_too(client: Client, batch: Batch, soda: Alkali) -> None:
    """64 F is (64 - 32) * 5/9 = 17.78 C; a bare number is in millilitres."""
    assert client.get(where(batch)).context["form"]["alkali"].value() == str(soda.pk)
    response = client.post(where(batch), entry(soda), follow=True)
    made = JarTest.objects.get()
    assert response.redirect_chain == [(url("alkali.jar", key=batch.pk, test=made.pk), 302)]
    assert (made.sample_ml, made.sample_typed, made.temp_typed) == (500.0, "500 mL", "64 F")
    assert made.temp_c == pytest.approx(17.78, abs=0.005)
    assert LiquorLook.objects.get(ph=5.9).taken_at == made.taken_at
    undo = url("alkali.delete_jar", key=batch.pk, test=made.pk)
    assert undo in [message.extra_tags for message in response.context["messages"]]


def test_a_jar_without_a_ph_adds_no_look(client: Client, batch: Batch, soda: Alkali) -> None:
    unchanged = no_rows(LiquorLook)
    assert client.post(where(batch), entry(soda, ph="", temp="", sample="1 cup")).status_code == 302
    unchanged()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("sample", "", "required"),
        ("sample", "5 kg", "not a volume"),
        ("sample", "0.1 mL", "cannot be"),
        ("temp", "150 C", "cannot be"),
        ("ph", "20", "14"),
        ("alkali", "nonsense", "not"),
        ("at", "2001-07-01T08:00", "before the batch began"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, batch: Batch, soda: Alkali, field: str, text: str, says: str
) -> None:
    unchanged = no_rows(JarTest, LiquorLook)
    refused(client, where(batch), entry(soda) | {field: text}, field=field, says=says)
    unchanged()


def test_with_an_empty_cupboard_it_shows_the_way_to_it(client: Client, batch: Batch) -> None:
    assert url("alkali.add") in client.get(where(batch)).content.decode()


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    unchanged = no_rows(JarTest)
    assert client.post(url("alkali.jar_test", key=NOBODY), entry(soda)).status_code == 404
    assert client.post(where(strangers_batch), entry(soda)).status_code == 404
    unchanged()
    only(client, where(batch), "get", "post")


def test_more_rows_need_no_more_statements(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda)
    flat(client, where(batch), lambda: [cast.an_alkali_part(batch, soda, hours_ago=h) for h in (0.2, 0.1)])


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.jar_test", key=NOBODY))
