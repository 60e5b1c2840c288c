"""`/compare/<key>/open/`: the next envelope."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep, Trial, TrialTub
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_the_next_lot_is_told_and_its_tub_kept(client: Client, laid: Trial, steeping: Steep) -> None:
    response = client.post(url("compare.open", key=laid.pk), {"steep": str(steeping.pk)}, follow=True)
    lot = laid.lots.get(number=1)
    assert lot.opened_at is not None
    assert lot.steep == steeping
    assert f"Envelope 1: {lot.way}." in response.content.decode()
    assert laid.lots.get(number=2).opened_at is None


def test_a_tub_is_one_lot_only(client: Client, laid: Trial, steeping: Steep) -> None:
    for _ in range(2):
        response = client.post(url("compare.open", key=laid.pk), {"steep": str(steeping.pk)}, follow=True)
    assert "No envelope was opened" in response.content.decode()
    assert TrialTub.objects.exclude(opened_at=None).count() == 1


def test_when_all_are_open_nothing_is(client: Client, laid: Trial) -> None:
    for _ in range(5):
        client.post(url("compare.open", key=laid.pk), {"steep": ""})
    assert laid.lots.exclude(opened_at=None).count() == 4


def test_only_posts_to_one_s_own(client: Client, garden: Garden, theirs: Trial) -> None:
    posts_only_to_what_is_there(client, "compare.open", other_garden=theirs.garden, key=theirs.pk)
