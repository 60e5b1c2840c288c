"""`/swatches/<key>/restore/`: bring a swatch back."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Swatch
from tests import cast
from tests.web.checks import too_late, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_stands_again(client: Client, garden: Garden) -> None:
    row = cast.a_swatch(garden)
    delete(row, by=None)
    response = client.post(url("swatches.restore", key=row.pk))
    assert (response.status_code, response["Location"]) == (302, url("swatches.show", key=row.pk))
    assert Swatch.objects.filter(pk=row.pk).exists()


def test_after_thirty_days_it_stays_out_and_the_page_says_so(client: Client, garden: Garden) -> None:
    row = cast.a_swatch(garden)
    too_late(client, row, url("swatches.restore", key=row.pk))


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_swatch(other_garden)
    delete(theirs, by=None)
    posts_only_to_what_is_there(client, "swatches.restore", other_garden=other_garden, key=theirs.pk)
    assert not Swatch.objects.filter(pk=theirs.pk).exists()
