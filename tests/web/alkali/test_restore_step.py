"""`alkali.restore_step`: bring a step of a jar titration back."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch
from tests import cast
from tests.web.alkali.checks import is_refused
from tests.web.checks import NOBODY, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_what_stands_already_stays(client: Client, batch: Batch, soda: Alkali) -> None:
    row = cast.a_jar_test(batch, soda, (2.0, 7.0)).steps.get()
    response = client.post(url("alkali.restore_step", key=batch.pk, test=row.jar_test_id, step=row.pk), follow=True)
    assert response.status_code == 200
    assert "Brought back." not in response.content.decode()


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    row = cast.a_jar_test(batch, soda, (2.0, 7.0)).steps.get()
    stranger = cast.a_jar_test(strangers_batch, cast.an_alkali(strangers_batch.garden), (2.0, 7.0)).steps.get()
    wrong = {"step": stranger.pk}
    is_refused(
        client,
        "alkali.restore_step",
        row,
        wrong=wrong,
        stranger=stranger,
        key=batch.pk,
        test=row.jar_test_id,
        step=row.pk,
    )


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.restore_step", key=NOBODY, test=NOBODY, step=NOBODY), "post")
