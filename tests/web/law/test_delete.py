"""`/law/<key>/delete/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    row = cast.a_law_check(garden)
    taken_out_and_back(
        client, row, delete=url("law.delete", key=row.pk), restore=url("law.restore", key=row.pk),
        back_to=url("law.index"),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.a_law_check(other_garden)
    posts_only_to_what_is_there(client, "law.delete", other_garden=other_garden, key=strange.pk)
