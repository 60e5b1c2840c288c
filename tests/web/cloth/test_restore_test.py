"""`/cloth/<key>/.../restore/`: bring a home test back."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_is_too_late(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    row = cast.a_home_test(piece)
    keys = {"key": piece.pk, "row": row.pk}
    too_late_to_bring_back(
        client, row, delete=url("cloth.delete_test", **keys), restore=url("cloth.restore_test", **keys)
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    row = cast.a_home_test(theirs)
    posts_only_to_what_is_there(client, "cloth.restore_test", other_garden=other_garden, key=theirs.pk, row=row.pk)
