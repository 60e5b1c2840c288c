"""`/ladders/<key>/done/`: forecasts learn from a ladder, or no more."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder, LadderRung
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_a_ladder_counts_once_it_is_measured_and_can_be_left_out_again(client: Client, ladder: Ladder) -> None:
    where = url("ladders.done", key=ladder.pk)
    page = client.post(where, follow=True).content.decode()
    assert "No strip is measured yet" in page and Ladder.objects.get().done_at is None
    LadderRung.objects.filter(dips=1).update(k_over_s=2.0)
    client.post(where)
    assert Ladder.objects.get().done_at is not None
    assert client.get(url("ladders.index")).context["page"].learned == ("Wool: 1 ladder, 1 strip.",)
    client.post(where)
    assert Ladder.objects.get().done_at is None


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    posts_only_to_what_is_there(client, "ladders.done", other_garden=theirs.garden, key=theirs.pk)
