"""`/alkali/shelf/<alkali>/delete/`: take an alkali out of the cupboard."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, Garden
from tests import cast
from tests.web.alkali.checks import goes_out_and_comes_back, is_refused
from tests.web.checks import NOBODY, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_goes_out_and_comes_back(client: Client, soda: Alkali) -> None:
    goes_out_and_comes_back(client, soda, "", to=url("alkali.index"), alkali=soda.pk)


@pytest.mark.parametrize("use", ["part", "jar"])
def test_one_in_use_stays_and_the_reason_is_said(client: Client, batch: Batch, soda: Alkali, use: str) -> None:
    if use == "part":
        cast.an_alkali_part(batch, soda)
    else:
        cast.a_jar_test(batch, soda)
    response = client.post(url("alkali.delete", alkali=soda.pk), follow=True)
    assert "mark it used up instead" in response.content.decode()
    assert Alkali.objects.filter(pk=soda.pk).exists()


def test_wrong_keys_strangers_and_methods(client: Client, soda: Alkali, other_garden: Garden) -> None:
    stranger = cast.an_alkali(other_garden)
    is_refused(client, "alkali.delete", soda, wrong={"alkali": stranger.pk}, stranger=stranger, alkali=soda.pk)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.delete", alkali=NOBODY), "post")
