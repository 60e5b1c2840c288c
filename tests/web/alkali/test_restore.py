"""`/alkali/shelf/<alkali>/restore/`: bring an alkali back that was taken out."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Alkali, Garden
from tests import cast
from tests.web.alkali.checks import is_refused
from tests.web.checks import NOBODY, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_is_too_late(client: Client, soda: Alkali) -> None:
    Alkali.everything.filter(pk=soda.pk).update(deleted_at=timezone.now() - timedelta(days=31))
    response = client.post(url("alkali.restore", alkali=soda.pk), follow=True)
    assert "more than thirty days ago" in response.content.decode()
    assert not Alkali.objects.filter(pk=soda.pk).exists()


def test_wrong_keys_strangers_and_methods(client: Client, soda: Alkali, other_garden: Garden) -> None:
    stranger = cast.an_alkali(other_garden)
    is_refused(client, "alkali.restore", soda, wrong={"alkali": stranger.pk}, stranger=stranger, alkali=soda.pk)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.restore", alkali=NOBODY), "post")
