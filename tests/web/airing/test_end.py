"""`/airing/<key>/<row>/end/`: it is done."""

import pytest
from django.test import Client

from bluewright.journal.models import Airing, Garden
from tests.web.checks import url
from tests.web.working import an_aired_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_done_with_what_the_counter_had_not_sent_yet(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.end", key=batch.pk, row=airing.pk)
    response = client.post(where, {"pours": "23", "minutes": "11.5"}, follow=True)
    assert response.redirect_chain == [(url("airing.show", key=batch.pk), 302)]
    now = Airing.objects.get(pk=airing.pk)
    assert (now.done_pours, now.done_min) == (23, 11.5)
    assert now.ended_at is not None
    undo = url("airing.go_on", key=batch.pk, row=airing.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = an_aired_batch(other_garden)
    posts_only_to_what_is_there(client, "airing.end", other_garden=other_garden, key=strange.pk, row=theirs.pk)
