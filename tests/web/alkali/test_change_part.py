"""`alkali.change_part`: correct what was written of a part."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, AlkaliPart, Batch, Change
from tests import cast
from tests.web.checks import NOBODY, flat, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(batch: Batch, part: AlkaliPart) -> str:
    return url("alkali.change_part", key=batch.pk, row=part.pk)


def test_it_is_corrected_and_what_it_said_before_is_kept(client: Client, batch: Batch, soda: Alkali) -> None:
    """A fluid ounce is 29.57 mL."""
    part = cast.an_alkali_part(batch, soda, ph=None)
    page = client.get(where(batch, part))
    assert page.context["form"]["amount"].value() == part.added_typed
    assert page.context["form"]["at"].value()
    response = client.post(where(batch, part), {"amount": "2 fl oz", "ph": "8,5", "at": ""}, follow=True)
    assert response.redirect_chain == [(url("alkali.dose", key=batch.pk), 302)]
    now = AlkaliPart.objects.get(pk=part.pk)
    assert (now.added_ml, now.added_typed, now.ph) == (pytest.approx(59.1, abs=0.1), "2 fl oz", 8.5)
    assert now.alkali == soda
    assert Change.objects.get(row_id=part.pk).before["added_typed"] == part.added_typed
    assert where(batch, part) in response.content.decode()


def test_a_mistake_keeps_what_was_typed(client: Client, batch: Batch, soda: Alkali) -> None:
    part = cast.an_alkali_part(batch, soda)
    refused(client, where(batch, part), {"amount": "some", "ph": "9"}, field="amount", says="some")


def test_where_the_liquor_is_not_known_it_can_still_be_corrected(client: Client, batch: Batch, soda: Alkali) -> None:
    part = cast.an_alkali_part(batch, soda)
    batch.came_from.all().delete()
    assert client.post(where(batch, part), {"amount": "45 mL", "ph": "9"}).status_code == 302
    assert AlkaliPart.objects.get(pk=part.pk).added_ml == 45.0


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    part = cast.an_alkali_part(batch, soda)
    theirs = cast.an_alkali_part(strangers_batch, cast.an_alkali(strangers_batch.garden))
    for key, row in ((batch.pk, NOBODY), (NOBODY, part.pk), (batch.pk, theirs.pk), (strangers_batch.pk, theirs.pk)):
        assert client.get(url("alkali.change_part", key=key, row=row)).status_code == 404
    only(client, where(batch, part), "get", "post")
    flat(client, where(batch, part), lambda: cast.an_alkali_part(batch, soda))


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.change_part", key=NOBODY, row=NOBODY))
