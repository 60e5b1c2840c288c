"""`alkali.delete_look`: take a reading of the liquor back."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch
from tests import cast
from tests.web.alkali.checks import goes_out_and_comes_back, is_refused
from tests.web.checks import NOBODY, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_goes_out_and_comes_back(client: Client, batch: Batch, soda: Alkali) -> None:
    row = cast.a_liquor_look(batch, ph=6.0)
    to = url("alkali.dose", key=batch.pk)
    goes_out_and_comes_back(client, row, "_look", to=to, key=batch.pk, row=row.pk)


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    row = cast.a_liquor_look(batch, ph=6.0)
    stranger = cast.a_liquor_look(strangers_batch, ph=6.0)
    wrong = {"row": stranger.pk}
    is_refused(client, "alkali.delete_look", row, wrong=wrong, stranger=stranger, key=batch.pk, row=row.pk)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.delete_look", key=NOBODY, row=NOBODY), "post")
