"""`/tubs/<key>/strain/<straining>/delete/`: it was not strained after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Steep, Strain
from tests.cast import a_batch, a_straining
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(straining: Strain) -> str:
    return url("tubs.delete_strain", key=straining.steep_id, straining=straining.pk)


def test_the_tub_steeps_again(client: Client, steeping: Steep) -> None:
    straining = a_straining(steeping)
    response = client.post(where(straining), follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=steeping.pk), 302)]
    assert response.context["page"].strained is None
    assert response.context["page"].call is not None
    assert Strain.everything.get(pk=straining.pk).deleted_at is not None


def test_there_is_no_straining_of_a_wrong_key(client: Client, steeping: Steep, strained: Steep) -> None:
    straining = strained.strains.get()
    assert client.post(url("tubs.delete_strain", key=strained.pk, straining=NOBODY)).status_code == 404
    assert client.post(url("tubs.delete_strain", key=steeping.pk, straining=straining.pk)).status_code == 404
    assert strained.strains.count() == 1


def test_a_stranger_s_straining_stays(client: Client, strangers_tub: Steep) -> None:
    assert client.post(where(strangers_tub.strains.get())).status_code == 404
    assert strangers_tub.strains.count() == 1


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.delete_strain", key=NOBODY, straining=NOBODY), "post")


def test_it_is_only_posted(client: Client, strained: Steep) -> None:
    only(client, where(strained.strains.get()), "post")
    assert strained.strains.count() == 1


def test_a_straining_whose_liquor_is_in_a_batch_stays(client: Client, strained: Steep) -> None:
    strain = strained.strains.get()
    a_batch(strain)
    response = client.post(url("tubs.delete_strain", key=strained.pk, straining=strain.pk), follow=True)
    assert strained.strains.exists()
    assert "take the batch out first" in response.content.decode()
