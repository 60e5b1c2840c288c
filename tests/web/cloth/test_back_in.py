"""`/cloth/<key>/dips/<row>/back-in/`: it did not come out after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_in_the_vat_still(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden))
    response = client.post(url("cloth.back_in", key=piece.pk, row=dip.pk), follow=True)
    assert response.context["page"].timer.clock.dip == str(dip.pk)


def test_not_if_it_went_in_again_since(client: Client, garden: Garden) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    dip = cast.a_dip(piece, vat, hours_ago=3)
    cast.a_dip(piece, vat)
    page = client.post(url("cloth.back_in", key=piece.pk, row=dip.pk), follow=True).content.decode()
    assert "correct the other dip first" in page
    dip.refresh_from_db()
    assert dip.ended_at is not None


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    dip = cast.a_dip(theirs, cast.a_made_vat(other_garden))
    posts_only_to_what_is_there(client, "cloth.back_in", other_garden=other_garden, key=theirs.pk, row=dip.pk)
