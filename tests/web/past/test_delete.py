"""`/past/<bed>/<row>/delete/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, bed: Bed) -> None:
    row = cast.a_year(bed)
    taken_out_and_back(
        client, row, delete=url("past.delete", key=bed.pk, row=row.pk),
        restore=url("past.restore", key=bed.pk, row=row.pk), back_to=url("past.show", key=bed.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.a_bed(other_garden)
    row = cast.a_year(strange)
    posts_only_to_what_is_there(client, "past.delete", other_garden=other_garden, key=strange.pk, row=row.pk)
