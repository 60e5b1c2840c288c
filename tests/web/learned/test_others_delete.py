"""`/learned/others/<key>/delete/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    row = cast.others_taught(garden)
    taken_out_and_back(
        client, row, delete=url("learned.others_delete", key=row.pk), restore=url("learned.others_restore", key=row.pk),
        back_to=url("learned.others"),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.others_taught(other_garden)
    posts_only_to_what_is_there(client, "learned.others_delete", other_garden=other_garden, key=strange.pk)
