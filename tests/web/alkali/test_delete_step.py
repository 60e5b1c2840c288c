"""`alkali.delete_step`: take a step of a jar titration back."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch
from tests import cast
from tests.web.alkali.checks import goes_out_and_comes_back, is_refused
from tests.web.checks import NOBODY, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_goes_out_and_comes_back(client: Client, batch: Batch, soda: Alkali) -> None:
    row = cast.a_jar_test(batch, soda, (2.0, 7.0)).steps.get()
    to = url("alkali.jar", key=batch.pk, test=row.jar_test_id)
    goes_out_and_comes_back(client, row, "_step", to=to, key=batch.pk, test=row.jar_test_id, step=row.pk)


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    row = cast.a_jar_test(batch, soda, (2.0, 7.0)).steps.get()
    stranger = cast.a_jar_test(strangers_batch, cast.an_alkali(strangers_batch.garden), (2.0, 7.0)).steps.get()
    wrong = {"step": stranger.pk}
    is_refused(
        client,
        "alkali.delete_step",
        row,
        wrong=wrong,
        stranger=stranger,
        key=batch.pk,
        test=row.jar_test_id,
        step=row.pk,
    )


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.delete_step", key=NOBODY, test=NOBODY, step=NOBODY), "post")
