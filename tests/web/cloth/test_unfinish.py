"""`/cloth/<key>/unfinish/`: it was not finished after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_can_be_dipped_on_and_what_it_said_is_told(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden, finish="soaped", finished_at=cast.moment(1), after_g=509.0, after_typed="509 g")
    page = client.post(url("cloth.unfinish", key=piece.pk), follow=True).context["page"]
    piece.refresh_from_db()
    assert (piece.finish, piece.finished_at, piece.after_g, piece.after_typed) == ("", None, None, "")
    assert "after 509 g" in page.history[0].said


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    posts_only_to_what_is_there(client, "cloth.unfinish", other_garden=other_garden, key=theirs.pk)
