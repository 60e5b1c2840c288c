"""`/airing/<key>/<row>/delete/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests.web.checks import url
from tests.web.working import an_aired_batch, posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_an_airing_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    taken_out_and_back(
        client, airing, delete=url("airing.delete", key=batch.pk, row=airing.pk),
        restore=url("airing.restore", key=batch.pk, row=airing.pk), back_to=url("airing.show", key=batch.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = an_aired_batch(other_garden)
    posts_only_to_what_is_there(client, "airing.delete", other_garden=other_garden, key=strange.pk, row=theirs.pk)
