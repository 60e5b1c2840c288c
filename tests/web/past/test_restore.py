"""`/past/<bed>/<row>/restore/`."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Bed, Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_stays_out(client: Client, bed: Bed) -> None:
    row = cast.a_year(bed)
    too_late_to_bring_back(
        client, row, delete=url("past.delete", key=bed.pk, row=row.pk),
        restore=url("past.restore", key=bed.pk, row=row.pk),
    )  # fmt: skip


def test_it_is_offered_among_what_was_taken_out(client: Client, bed: Bed) -> None:
    row = cast.a_year(bed)
    delete(row, by=None)
    gone = client.get(url("gardens.taken_out")).context["page"].gone
    assert [one.back for one in gone] == [url("past.restore", key=bed.pk, row=row.pk)]
    assert gone[0].said.startswith("What grew in East, written ")


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.a_bed(other_garden)
    row = cast.a_year(strange)
    posts_only_to_what_is_there(client, "past.restore", other_garden=other_garden, key=strange.pk, row=row.pk)
