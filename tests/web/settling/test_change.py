"""`/settling/<key>/<row>/change/`: correct what was written of a standing."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden, Standing
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, only, refused, to_the_start_without_a_garden, url
from tests.web.working import a_decanted_batch, a_settling_batch

pytestmark = pytest.mark.django_db


def entry(**other: str) -> dict[str, str]:
    return {"depth": "32 cm", "started_at": typed(moment(7)), "note": "", **other}


def test_depth_and_time_are_corrected_and_what_was_before_is_kept(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    where = url("settling.change", key=batch.pk, row=standing.pk)
    assert client.get(where).context["form"]["depth"].value() == "30 cm"
    assert client.post(where, entry()).status_code == 302
    now = Standing.objects.get(pk=standing.pk)
    assert (now.depth_mm, now.depth_typed, now.started_at) == (320.0, "32 cm", moment(7))
    assert Change.objects.get(row_id=standing.pk).before["depth_typed"] == "30 cm"


def test_the_decanting_stays(client: Client, garden: Garden) -> None:
    batch, standing = a_decanted_batch(garden)
    client.post(url("settling.change", key=batch.pk, row=standing.pk), entry(started_at=typed(moment(27))))
    assert Standing.objects.get(pk=standing.pk).left_l == 1.2


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    where = url("settling.change", key=batch.pk, row=standing.pk)
    refused(client, where, entry(depth="deep"), field="depth", says="deep")


def test_a_wrong_key_and_a_strangers_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    strange, theirs = a_settling_batch(other_garden)
    for key, row in ((batch.pk, NOBODY), (NOBODY, standing.pk), (strange.pk, theirs.pk), (batch.pk, theirs.pk)):
        assert client.post(url("settling.change", key=key, row=row), entry()).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("settling.change", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused_and_statements_stay_few(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    where = url("settling.change", key=batch.pk, row=standing.pk)
    only(client, where, "get", "post")
    flat(client, where, lambda: a_settling_batch(garden))
