"""`/compare/batches/why/<figure>/`: why a figure of many batches is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests.web.checks import only, to_the_start_without_a_garden, url
from tests.web.compare.test_batches import a_jarred_batch

pytestmark = pytest.mark.django_db


def test_it_explains_the_causes(client: Client, garden: Garden) -> None:
    where = url("compare.batches_why", figure="causes")
    assert "too few batches" in client.get(where, follow=True).content.decode()
    for number in range(4):
        a_jarred_batch(garden, number, damaged_frac=0.1 * number)
    assert client.get(where).context["page"].figure
    assert client.get(url("compare.batches_why", figure="nothing")).status_code == 404
    only(client, where, "get")
    to_the_start_without_a_garden(client, where)
