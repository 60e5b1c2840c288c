"""`/ladders/<key>/change/`: correct what was written of a ladder."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Ladder
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, url

pytestmark = pytest.mark.django_db


def test_it_opens_as_typed_and_keeps_what_it_said(client: Client, garden: Garden) -> None:
    row = cast.a_ladder(garden, vat=cast.a_made_vat(garden))
    where = url("ladders.change", key=row.pk)
    typed = filled_with(client, where)
    assert (typed["bath"], typed["active_sd_pct"]) == ("40 L", 10.0)
    client.post(where, typed)
    assert Ladder.objects.get().changed_at == row.changed_at, "nothing was changed"
    client.post(where, typed | {"active_g_per_l": "0.8", "dip_min": "7"})
    row = Ladder.objects.get()
    assert (row.active_g_per_l, row.active_sd_frac, row.dip_min) == (0.8, 0.1, 7.0)
    assert "strength, g/L 1.2" in client.get(url("ladders.show", key=row.pk)).content.decode()


def test_a_mistake_keeps_what_was_typed(client: Client, ladder: Ladder) -> None:
    where = url("ladders.change", key=ladder.pk)
    typed = {name: str(value) for name, value in filled_with(client, where).items()}
    refused(client, where, typed | {"bath": "1 mL"}, field="bath", says="cannot be")
    refused(client, where, typed | {"bath": "20 mL"}, field="bath", says="too little")


def test_only_one_s_own(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    for key in (NOBODY, theirs.pk):
        assert client.get(url("ladders.change", key=key)).status_code == 404
    only(client, url("ladders.change", key=ladder.pk), "get", "post")
