"""`alkali.restore_part`: it went in after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch
from tests import cast
from tests.web.alkali.checks import is_refused
from tests.web.checks import NOBODY, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_what_stands_already_stays(client: Client, batch: Batch, soda: Alkali) -> None:
    row = cast.an_alkali_part(batch, soda)
    response = client.post(url("alkali.restore_part", key=batch.pk, row=row.pk), follow=True)
    assert response.status_code == 200
    assert "Brought back." not in response.content.decode()


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    row = cast.an_alkali_part(batch, soda)
    stranger = cast.an_alkali_part(strangers_batch, cast.an_alkali(strangers_batch.garden))
    wrong = {"row": stranger.pk}
    is_refused(client, "alkali.restore_part", row, wrong=wrong, stranger=stranger, key=batch.pk, row=row.pk)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.restore_part", key=NOBODY, row=NOBODY), "post")
