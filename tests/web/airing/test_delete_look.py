"""`/airing/<key>/looks/<row>/delete/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests.cast import a_liquor_look
from tests.web.checks import url
from tests.web.working import a_working_batch, posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_a_look_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    look = a_liquor_look(batch, foam=1)
    taken_out_and_back(
        client, look, delete=url("airing.delete_look", key=batch.pk, row=look.pk),
        restore=url("airing.restore_look", key=batch.pk, row=look.pk), back_to=url("airing.show", key=batch.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = a_working_batch(other_garden)
    look = a_liquor_look(strange, foam=1)
    posts_only_to_what_is_there(client, "airing.delete_look", other_garden=other_garden, key=strange.pk, row=look.pk)
