"""`/alkali/<key>/aim/`: which alkali, which pH, read with what, and where."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, Change, Garden
from tests import cast
from tests.web.checks import NOBODY, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("alkali.aim", key=batch.pk)


def entry(alkali: Alkali, **other: object) -> dict[str, object]:
    plain = {"alkali": str(alkali.pk), "target_ph": "10", "ph_sd": "0.3", "place": "2", "room": "30"}
    return {**plain, **other}


def test_the_batch_keeps_it_and_the_dose_follows(client: Client, batch: Batch, soda: Alkali) -> None:
    response = client.post(where(batch), entry(soda), follow=True)
    assert response.redirect_chain == [(url("alkali.dose", key=batch.pk) + f"?alkali={soda.pk}", 302)]
    batch.refresh_from_db()
    assert (batch.target_ph, batch.ph_sd, batch.room_m3, batch.air_changes_per_h) == (10.0, 0.3, 30.0, 2.0)
    assert (batch.room_typed, Change.objects.filter(row_id=batch.pk).count()) == ("30 m³", 1)
    form = response.context["aim"]
    assert {name: form[name].value() for name in form.fields} == entry(soda)
    assert response.context["page"].wanted == "10"


def test_a_us_room_is_measured_in_feet(client: Client, garden: Garden, batch: Batch, soda: Alkali) -> None:
    """A foot is 0.3048 m by definition: 1000 cubic feet are 28.3168 m3."""
    garden.system = "us"
    garden.save()
    response = client.post(where(batch), entry(soda, room="1000"), follow=True)
    batch.refresh_from_db()
    assert (batch.room_m3, batch.room_typed) == (pytest.approx(28.3168, rel=1e-5), "1000 cubic feet")
    assert response.context["aim"]["room"].value() == "1000"


def test_outdoors_there_is_no_room(client: Client, batch: Batch, soda: Alkali) -> None:
    client.post(where(batch), entry(soda))
    client.post(where(batch), entry(soda, place="", room=""))
    batch.refresh_from_db()
    assert (batch.room_m3, batch.air_changes_per_h, batch.room_typed) == (None, None, "")


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("target_ph", "6", "7"),
        ("target_ph", "blue", "number"),
        ("ph_sd", "2", "not one of"),
        ("place", "7", "not one of"),
        ("room", "", "How large is the room"),
        ("room", "0", "0.1"),
        ("alkali", "nonsense", "not"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, batch: Batch, soda: Alkali, field: str, text: str, says: str
) -> None:
    refused(client, where(batch), entry(soda) | {field: text}, field=field, says=says)
    batch.refresh_from_db()
    assert batch.target_ph == 9.5


def test_a_stranger_s_alkali_cannot_be_chosen(client: Client, batch: Batch, soda: Alkali, other_garden: Garden) -> None:
    strange = cast.an_alkali(other_garden)
    assert client.post(where(batch), entry(strange)).status_code == 422


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    assert client.post(url("alkali.aim", key=NOBODY), entry(soda)).status_code == 404
    assert client.post(where(strangers_batch), entry(soda)).status_code == 404
    only(client, where(batch), "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.aim", key=NOBODY), "post")
