"""`/drying/<key>/<row>/change/`: correct what was written of a dish."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Drying, Garden
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, only, refused, to_the_start_without_a_garden, url
from tests.web.working import a_drying_batch

pytestmark = pytest.mark.django_db


def entry(**other: str) -> dict[str, str]:
    plain = {
        "dish": "101 g", "scale_sd_g": "0.5", "layer": "", "temp": "", "humidity": "", "started_at": typed(moment(91)),
        "note": "saucer",
    }  # fmt: skip
    return plain | other


def test_the_dish_is_corrected_and_its_weighings_stay(client: Client, garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    where = url("drying.change", key=batch.pk, row=drying.pk)
    assert client.get(where).context["form"]["dish"].value() == "100 g"
    assert client.post(where, entry()).status_code == 302
    now = Drying.objects.get(pk=drying.pk)
    assert (now.dish_g, now.note, now.started_at, now.weighings.count()) == (101.0, "saucer", moment(91), 3)
    assert Change.objects.get(row_id=drying.pk).before["dish_g"] == 100.0


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    refused(client, url("drying.change", key=batch.pk, row=drying.pk), entry(dish="?"), field="dish", says="?")


def test_a_wrong_key_and_a_strangers_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    strange, theirs = a_drying_batch(other_garden)
    for key, row in ((batch.pk, NOBODY), (NOBODY, drying.pk), (strange.pk, theirs.pk), (batch.pk, theirs.pk)):
        assert client.post(url("drying.change", key=key, row=row), entry()).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("drying.change", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused_and_statements_stay_few(client: Client, garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    where = url("drying.change", key=batch.pk, row=drying.pk)
    only(client, where, "get", "post")
    flat(client, where, lambda: a_drying_batch(garden))
