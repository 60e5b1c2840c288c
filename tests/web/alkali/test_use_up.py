"""`alkali.use_up`: an alkali is used up."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Change, Garden
from tests import cast
from tests.web.alkali.checks import is_refused
from tests.web.checks import NOBODY, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_marked_once_with_the_way_back(client: Client, garden: Garden) -> None:
    row = cast.an_alkali(garden, used_up=False)
    where = url("alkali.use_up", alkali=row.pk)
    response = client.post(where, follow=True)
    assert response.redirect_chain == [(url("alkali.index"), 302)]
    assert Alkali.objects.get().used_up is True
    assert "is used up" in response.content.decode()
    assert url("alkali.put_back", alkali=row.pk) in [message.extra_tags for message in response.context["messages"]]
    client.post(where)
    assert Change.objects.filter(row_id=row.pk).count() == 1


def test_wrong_keys_strangers_and_methods(client: Client, soda: Alkali, other_garden: Garden) -> None:
    stranger = cast.an_alkali(other_garden)
    is_refused(client, "alkali.use_up", soda, wrong={"alkali": stranger.pk}, stranger=stranger, alkali=soda.pk)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.use_up", alkali=NOBODY), "post")
