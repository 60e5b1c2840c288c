"""`alkali.delete_part`: a part did not go in after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch
from tests import cast
from tests.web.alkali.checks import goes_out_and_comes_back, is_refused
from tests.web.checks import NOBODY, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_goes_out_and_comes_back(client: Client, batch: Batch, soda: Alkali) -> None:
    row = cast.an_alkali_part(batch, soda)
    to = url("alkali.dose", key=batch.pk)
    goes_out_and_comes_back(client, row, "_part", to=to, key=batch.pk, row=row.pk)


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    row = cast.an_alkali_part(batch, soda)
    stranger = cast.an_alkali_part(strangers_batch, cast.an_alkali(strangers_batch.garden))
    wrong = {"row": stranger.pk}
    is_refused(client, "alkali.delete_part", row, wrong=wrong, stranger=stranger, key=batch.pk, row=row.pk)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.delete_part", key=NOBODY, row=NOBODY), "post")
