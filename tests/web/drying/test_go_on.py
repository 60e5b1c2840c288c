"""`/drying/<key>/<row>/go-on/`: it was not dry after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Drying, Garden
from tests.cast import moment
from tests.web.checks import url
from tests.web.working import a_drying_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_dries_on(client: Client, garden: Garden) -> None:
    batch, drying = a_drying_batch(garden, ended_at=moment())
    response = client.post(url("drying.go_on", key=batch.pk, row=drying.pk), follow=True)
    assert Drying.objects.get(pk=drying.pk).ended_at is None
    assert response.context["page"].dishes[0].again


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = a_drying_batch(other_garden)
    posts_only_to_what_is_there(client, "drying.go_on", other_garden=other_garden, key=strange.pk, row=theirs.pk)
