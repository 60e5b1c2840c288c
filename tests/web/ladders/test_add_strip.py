"""`/ladders/<key>/strips/add/`: one strip more."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests.web.checks import NOBODY, only, refused, url

pytestmark = pytest.mark.django_db


def test_it_is_kept_and_can_be_undone(client: Client, ladder: Ladder) -> None:
    response = client.post(url("ladders.add_strip", key=ladder.pk), {"dips": "8"}, follow=True)
    strip = ladder.rungs.get(dips=8)
    assert url("ladders.delete_strip", key=ladder.pk, row=strip.pk) in [
        message.extra_tags for message in response.context["messages"]
    ]


def test_a_mistake_keeps_what_was_typed(client: Client, ladder: Ladder) -> None:
    refused(client, url("ladders.add_strip", key=ladder.pk), {"dips": "41"}, field="dips", says="less than or equal")


def test_only_one_s_own(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    for key in (NOBODY, theirs.pk):
        assert client.get(url("ladders.add_strip", key=key)).status_code == 404
    only(client, url("ladders.add_strip", key=ladder.pk), "get", "post")
