"""`/vats/<key>/poured/<row>/restore/`: bring back what was poured in."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_it_stays_out_after_thirty_days(client: Client, garden: Garden) -> None:
    row = cast.a_vat_poured(cast.a_vat(garden))
    keys = {"key": row.vat_id, "row": row.pk}
    too_late_to_bring_back(
        client, row, delete=url("vats.delete_poured", **keys), restore=url("vats.restore_poured", **keys)
    )


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_vat_poured(cast.a_vat(other_garden))
    posts_only_to_what_is_there(
        client, "vats.restore_poured", other_garden=other_garden, key=theirs.vat_id, row=theirs.pk
    )
