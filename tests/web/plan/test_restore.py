"""`/plan/<want>/restore/`: bring a want back."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Want
from tests import cast
from tests.web.checks import too_late, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_stands_again(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    delete(row, by=None)
    response = client.post(url("plan.restore", key=row.pk))
    assert (response.status_code, response["Location"]) == (302, url("plan.show", key=row.pk))
    assert Want.objects.filter(pk=row.pk).exists()


def test_after_thirty_days_it_stays_out_and_the_page_says_so(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    too_late(client, row, url("plan.restore", key=row.pk))


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_want(other_garden)
    delete(theirs, by=None)
    posts_only_to_what_is_there(client, "plan.restore", other_garden=other_garden, key=theirs.pk)
    assert not Want.objects.filter(pk=theirs.pk).exists()
