"""`/tubs/<key>/strain/<straining>/restore/`: it was strained after all."""

from datetime import timedelta

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete, keep
from bluewright.journal.models import Steep, Strain
from tests.cast import moment
from tests.web.checks import NOBODY, only, url

pytestmark = pytest.mark.django_db


def where(straining: Strain) -> str:
    return url("tubs.restore_strain", key=straining.steep_id, straining=straining.pk)


@pytest.fixture
def gone(strained: Steep) -> Strain:
    straining: Strain = strained.strains.get()
    delete(straining, by=None)
    return straining


def test_taking_a_straining_back_can_be_undone(client: Client, strained: Steep) -> None:
    straining = strained.strains.get()
    taken = client.post(url("tubs.delete_strain", key=strained.pk, straining=straining.pk), follow=True)
    assert where(straining) in taken.content.decode()
    response = client.post(where(straining), follow=True)
    assert response.context["page"].strained is not None


def test_a_tub_that_was_strained_anew_keeps_the_newer_straining(client: Client, gone: Strain) -> None:
    keep(Strain(steep=gone.steep, strained_at=moment(), squeeze="hand"), by=None)
    response = client.post(where(gone), follow=True)
    assert "strained already" in response.content.decode()
    assert Strain.objects.filter(steep=gone.steep).count() == 1


def test_after_thirty_days_it_stays_out_and_the_page_says_so(client: Client, gone: Strain) -> None:
    Strain.everything.filter(pk=gone.pk).update(deleted_at=moment() - timedelta(days=31))
    assert "thirty days" in client.post(where(gone), follow=True).content.decode()
    assert not Strain.objects.filter(pk=gone.pk).exists()


def test_there_is_no_straining_of_a_wrong_key(client: Client, gone: Strain, steeping: Steep) -> None:
    assert client.post(url("tubs.restore_strain", key=gone.steep_id, straining=NOBODY)).status_code == 404
    assert client.post(url("tubs.restore_strain", key=steeping.pk, straining=gone.pk)).status_code == 404


def test_other_methods_are_refused(client: Client, gone: Strain) -> None:
    only(client, where(gone), "post")
