"""`/airing/<key>/<row>/restore/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests.web.checks import url
from tests.web.working import an_aired_batch, posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_is_too_late(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    too_late_to_bring_back(
        client, airing, delete=url("airing.delete", key=batch.pk, row=airing.pk),
        restore=url("airing.restore", key=batch.pk, row=airing.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = an_aired_batch(other_garden)
    posts_only_to_what_is_there(client, "airing.restore", other_garden=other_garden, key=strange.pk, row=theirs.pk)
