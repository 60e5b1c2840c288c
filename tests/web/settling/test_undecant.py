"""`/settling/<key>/<row>/undecant/`: it was not decanted after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Standing
from tests.web.checks import url
from tests.web.working import a_decanted_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_stands_again_and_the_way_back_is_offered(client: Client, garden: Garden) -> None:
    batch, standing = a_decanted_batch(garden)
    response = client.post(url("settling.undecant", key=batch.pk, row=standing.pk), follow=True)
    now = Standing.objects.get(pk=standing.pk)
    assert (now.decanted_at, now.left_l, now.left_typed, now.blue_in_decant, now.ph) == (None, None, "", None, None)
    assert response.context["page"].stands is not None
    undo = url("settling.redecant", key=batch.pk, row=standing.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = a_decanted_batch(other_garden)
    posts_only_to_what_is_there(client, "settling.undecant", other_garden=other_garden, key=strange.pk, row=theirs.pk)
