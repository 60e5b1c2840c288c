"""`/airing/<key>/<row>/change/`: correct what was written of an airing."""

import pytest
from django.test import Client

from bluewright.journal.models import Airing, Change, Garden
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, only, refused, to_the_start_without_a_garden, url
from tests.web.working import an_aired_batch

pytestmark = pytest.mark.django_db


def entry(**other: str) -> dict[str, str]:
    plain = {"height": "70 cm", "pour": "", "vessel": "", "started_at": typed(moment(0.5)), "note": "over the stool"}
    return plain | other


def test_the_way_is_corrected_and_the_count_stays(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden, height_m=0.6, height_typed="60 cm")
    where = url("airing.change", key=batch.pk, row=airing.pk)
    assert client.get(where).context["form"]["height"].value() == "60 cm"
    assert client.post(where, entry()).status_code == 302
    now = Airing.objects.get(pk=airing.pk)
    assert (now.height_m, now.height_typed, now.note, now.done_pours) == (0.7, "70 cm", "over the stool", 20)
    assert now.started_at == moment(0.5)
    assert Change.objects.get(row_id=airing.pk).before["height_typed"] == "60 cm"


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.change", key=batch.pk, row=airing.pk)
    refused(client, where, entry(height="high"), field="height", says="high")


def test_a_wrong_key_and_a_strangers_airing_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    strange, theirs = an_aired_batch(other_garden)
    for key, row in ((batch.pk, NOBODY), (NOBODY, airing.pk), (strange.pk, theirs.pk), (batch.pk, theirs.pk)):
        assert client.post(url("airing.change", key=key, row=row), entry()).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("airing.change", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused_and_statements_stay_few(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.change", key=batch.pk, row=airing.pk)
    only(client, where, "get", "post")
    flat(client, where, lambda: an_aired_batch(garden))
