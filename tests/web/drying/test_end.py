"""`/drying/<key>/<row>/end/`: it is taken for dry."""

import pytest
from django.test import Client

from bluewright.journal.models import Drying, Garden
from tests.web.checks import url
from tests.web.working import a_drying_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_taken_for_dry_and_can_go_into_a_jar(client: Client, garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    response = client.post(url("drying.end", key=batch.pk, row=drying.pk), follow=True)
    assert response.redirect_chain == [(url("drying.show", key=batch.pk), 302)]
    assert Drying.objects.get(pk=drying.pk).ended_at is not None
    assert response.context["page"].ready
    assert "do not show that it is dry" in response.content.decode(), "it still lost much at the last weighing"
    undo = url("drying.go_on", key=batch.pk, row=drying.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = a_drying_batch(other_garden)
    posts_only_to_what_is_there(client, "drying.end", other_garden=other_garden, key=strange.pk, row=theirs.pk)
