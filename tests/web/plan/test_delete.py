"""`/plan/<want>/delete/`: take a want out."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Want
from tests import cast
from tests.web.checks import gone_and_back, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_gone_and_can_be_brought_back(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    gone_and_back(client, row, delete=url("plan.delete", key=row.pk), restore=url("plan.restore", key=row.pk))


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    client.post(url("plan.delete", key=cast.a_want(garden, name="Hem").pk))
    assert "Want Hem, written" in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_want(other_garden)
    posts_only_to_what_is_there(client, "plan.delete", other_garden=other_garden, key=theirs.pk)
    assert Want.objects.filter(pk=theirs.pk).exists()
