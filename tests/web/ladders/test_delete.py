"""`/ladders/<key>/delete/`: a ladder is taken out and brought back."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Ladder
from tests import cast
from tests.web.checks import gone_and_back, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_gone_from_forecasts_and_can_be_brought_back(client: Client, garden: Garden) -> None:
    row = cast.a_done_ladder(garden)
    gone_and_back(client, row, delete=url("ladders.delete", key=row.pk), restore=url("ladders.restore", key=row.pk))
    client.post(url("ladders.delete", key=row.pk))
    assert client.get(url("ladders.index")).context["page"].learned == ()
    assert "Ladder Ladder 9, begun" in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    posts_only_to_what_is_there(client, "ladders.delete", other_garden=theirs.garden, key=theirs.pk)
    assert Ladder.objects.filter(pk=theirs.pk).exists()
