"""`/assays/<row>/restore/`: back again, within thirty days."""

import pytest
from django.test import Client

from bluewright.journal.actions import assays
from bluewright.journal.models import Assay, Garden
from tests import cast
from tests.web.assays.rows import a_jar
from tests.web.checks import NOBODY, only, too_late, url

pytestmark = pytest.mark.django_db


def test_it_comes_back_to_its_own_page(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden))
    assays.delete(row, by=None)
    response = client.post(url("assays.restore", row=row.pk))
    assert response["Location"] == url("assays.show", row=row.pk)
    assert Assay.objects.filter(pk=row.pk).exists()


def test_after_thirty_days_it_stays_out(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden))
    too_late(client, row, url("assays.restore", row=row.pk))


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    row, strange = cast.an_assay(a_jar(garden)), cast.an_assay(a_jar(other_garden))
    only(client, url("assays.restore", row=row.pk), "post")
    for key in (NOBODY, strange.pk):
        assert client.post(url("assays.restore", row=key)).status_code == 404
