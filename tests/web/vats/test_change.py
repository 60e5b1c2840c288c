"""`/vats/<key>/change/`: what was written of a vat, put right."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Vat
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(vat: Vat) -> str:
    return url("vats.change", key=vat.pk)


def test_a_correction_is_written_and_what_it_said_before_is_kept(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    entry = filled_with(client, where(vat)) | {"fibre": "cotton", "hold": "30 C", "heel": "4 g", "heel_off": "1 g"}
    response = client.post(where(vat), entry, follow=True)
    changed = Vat.objects.get(pk=vat.pk)
    assert (changed.fibre, changed.hold_c, changed.heel_g, changed.heel_sd_g) == ("cotton", 30.0, 4.0, 1.0)
    assert changed.started_at == vat.started_at
    assert "wool" in response.context["page"].history[0].said


def test_it_did_not_begin_after_what_went_in(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    entry = filled_with(client, where(vat)) | {"started_at": cast.typed(cast.moment(3))}
    refused(client, where(vat), entry, field="started_at", says="is noted before that")


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    refused(client, where(vat), filled_with(client, where(vat)) | {"volume": "much"}, field="volume", says="much")


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.post(url("vats.change", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.change", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_vat(garden)), "get", "post")
