"""`/drying/<key>/weighings/<row>/restore/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests.web.checks import url
from tests.web.working import a_drying_batch, posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_is_too_late(client: Client, garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    row = drying.weighings.all()[0]
    too_late_to_bring_back(
        client, row, delete=url("drying.delete_weighing", key=batch.pk, row=row.pk),
        restore=url("drying.restore_weighing", key=batch.pk, row=row.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, drying = a_drying_batch(other_garden)
    row = drying.weighings.all()[0]
    posts_only_to_what_is_there(
        client, "drying.restore_weighing", other_garden=other_garden, key=strange.pk, row=row.pk
    )
