"""`/vats/<key>/additions/<row>/restore/`: bring back what went in."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_it_stays_out_after_thirty_days(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    row = cast.a_vat_addition(vat)
    keys = {"key": vat.pk, "row": row.pk}
    too_late_to_bring_back(
        client, row, delete=url("vats.delete_addition", **keys), restore=url("vats.restore_addition", **keys),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_vat(other_garden)
    row = cast.a_vat_addition(theirs)
    posts_only_to_what_is_there(client, "vats.restore_addition", other_garden=other_garden, key=theirs.pk, row=row.pk)
