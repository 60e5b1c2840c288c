"""`/compare/<key>/lots/<row>/`: what came of a lot."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden, Trial
from tests import cast
from tests.web.checks import NOBODY, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_a_spoilt_tub_stays_in_the_list_with_its_reason(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, open_lots=1)
    lot = row.lots.get(number=1)
    client.post(url("compare.lot", key=row.pk, row=lot.pk), {"steep": "", "got": "1,25", "spoilt": "it leaked"})
    lot.refresh_from_db()
    assert (lot.got_g_per_kg, lot.spoilt) == (1.25, "it leaked")
    assert "it leaked" in client.get(url("compare.show", key=row.pk)).content.decode()
    assert Change.objects.filter(kind="trialtub", row_id=lot.pk, verb="change").exists()


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, open_lots=1)
    where = url("compare.lot", key=row.pk, row=row.lots.get(number=1).pk)
    refused(client, where, {"steep": "", "got": "much", "spoilt": "frost"}, field="got", says="much")


def test_a_sealed_lot_and_another_s_have_no_page(client: Client, laid: Trial, theirs: Trial) -> None:
    sealed, foreign = laid.lots.get(number=1), theirs.lots.get(number=1)
    assert client.get(url("compare.lot", key=laid.pk, row=sealed.pk)).status_code == 404
    assert client.get(url("compare.lot", key=laid.pk, row=NOBODY)).status_code == 404
    assert client.get(url("compare.lot", key=theirs.pk, row=foreign.pk)).status_code == 404
    to_the_start_without_a_garden(client, url("compare.lot", key=laid.pk, row=sealed.pk))
