"""`/airing/<key>/<row>/go-on/`: it was not done after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Airing, Garden
from tests.cast import moment
from tests.web.checks import url
from tests.web.working import an_aired_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_the_airing_goes_on_where_it_was(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden, ended_at=moment())
    response = client.post(url("airing.go_on", key=batch.pk, row=airing.pk), follow=True)
    assert Airing.objects.get(pk=airing.pk).ended_at is None
    assert response.context["page"].counter.pours == 20


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = an_aired_batch(other_garden)
    posts_only_to_what_is_there(client, "airing.go_on", other_garden=other_garden, key=strange.pk, row=theirs.pk)
