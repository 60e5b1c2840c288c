"""`/alkali/shelf/<alkali>/change/`: mend what is written about an alkali."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, Change, Garden
from tests import cast
from tests.web.checks import NOBODY, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(alkali: Alkali) -> str:
    return url("alkali.change", alkali=alkali.pk)


def entry(**other: object) -> dict[str, object]:
    plain = {"kind": "soda_ash", "name": "soda", "strength": "0.6 mol/L", "label_as": "nh3", "note": ""}
    return {**plain, **other}


def test_the_form_begins_with_what_is_written_and_what_was_is_kept(client: Client, soda: Alkali) -> None:
    form = client.get(where(soda)).context["form"]
    assert (form["name"].value(), form["strength"].value()) == ("soda, half molar", "0.5 mol/L")
    assert client.post(where(soda), entry()).status_code == 302
    soda.refresh_from_db()
    assert (soda.name, soda.mol_per_l, soda.strength_typed) == ("soda", 0.6, "0.6 mol/L")
    assert Change.objects.get(row_id=soda.pk).before["mol_per_l"] == 0.5


def test_what_is_used_up_stays_so(client: Client, garden: Garden) -> None:
    empty = cast.an_alkali(garden, used_up=True)
    client.post(where(empty), entry())
    assert Alkali.objects.get().used_up


def test_one_in_use_says_so_and_its_strength_can_be_mended(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda)
    assert "In use: 1 part in a batch" in client.get(where(soda)).content.decode()
    assert client.post(where(soda), entry()).status_code == 302


def test_what_went_in_by_the_millilitre_does_not_turn_into_grams(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda)
    refused(client, where(soda), entry(strength=""), field="strength", says="in another measure")
    refused(client, where(soda), entry(kind="lye"), field="kind", says="write another alkali down")
    soda.refresh_from_db()
    assert (soda.kind, soda.mol_per_l) == ("soda_ash", 0.5)


def test_a_mistake_keeps_what_was_typed(client: Client, soda: Alkali) -> None:
    refused(client, where(soda), entry(strength="5 %"), field="strength", says="no percentage")


def test_wrong_keys_strangers_and_methods(client: Client, soda: Alkali, other_garden: Garden) -> None:
    assert client.get(url("alkali.change", alkali=NOBODY)).status_code == 404
    assert client.post(where(cast.an_alkali(other_garden)), entry()).status_code == 404
    only(client, where(soda), "get", "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.change", alkali=NOBODY))
