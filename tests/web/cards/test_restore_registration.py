"""`/cards/<key>/registrations/<row>/restore/`."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import CardRegistration, Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    card = cast.a_card(garden)
    row = cast.a_registration(card)
    taken_out_and_back(
        client, row, delete=url("cards.delete_registration", key=card.pk, row=row.pk),
        restore=url("cards.restore_registration", key=card.pk, row=row.pk), back_to=url("cards.show", key=card.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_card(other_garden)
    row = cast.a_registration(theirs)
    delete(row, by=None)
    posts_only_to_what_is_there(
        client, "cards.restore_registration", other_garden=other_garden, key=theirs.pk, row=row.pk
    )
    assert not CardRegistration.objects.filter(pk=row.pk).exists()
