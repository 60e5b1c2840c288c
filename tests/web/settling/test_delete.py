"""`/settling/<key>/<row>/delete/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests.web.checks import url
from tests.web.working import a_settling_batch, posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    row = standing
    taken_out_and_back(
        client, row, delete=url("settling.delete", key=batch.pk, row=row.pk),
        restore=url("settling.restore", key=batch.pk, row=row.pk), back_to=url("settling.show", key=batch.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, standing = a_settling_batch(other_garden)
    row = standing
    posts_only_to_what_is_there(client, "settling.delete", other_garden=other_garden, key=strange.pk, row=row.pk)
