"""`/settling/<key>/<row>/decant/`: the clear is taken off."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Standing
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, only, refused, to_the_start_without_a_garden, url
from tests.web.working import a_settling_batch

pytestmark = pytest.mark.django_db


def entry(**other: str) -> dict[str, str]:
    plain = {
        "left": "1 qt", "ph": "9,2", "conductivity": "3600", "tap_ph": "7.4", "tap_conductivity": "420",
        "blue_in_decant": "1", "decanted_at": typed(moment()),
    }  # fmt: skip
    return plain | other


def test_a_decanting_is_written_as_typed_and_the_tap_is_kept_for_the_garden(client: Client, garden: Garden) -> None:
    """A US quart is a quarter of 3.785411784 L by definition."""
    batch, standing = a_settling_batch(garden)
    where = url("settling.decant", key=batch.pk, row=standing.pk)
    assert client.get(where).content.decode().count("<svg") == 1 + 4, "the vessel, and a picture of each level"
    response = client.post(where, entry(), follow=True)
    assert response.redirect_chain == [(url("settling.show", key=batch.pk), 302)]
    now = Standing.objects.get(pk=standing.pk)
    assert (now.left_typed, now.ph, now.conductivity_us_per_cm, now.blue_in_decant) == ("1 qt", 9.2, 3600.0, 1)
    assert now.left_l == pytest.approx(0.946352946)
    assert now.decanted_at == moment()
    kept = Garden.objects.get(pk=garden.pk)
    assert (kept.tap_ph, kept.tap_conductivity_us_per_cm) == (7.4, 420.0)
    undo = url("settling.undecant", key=batch.pk, row=standing.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_the_caution_stands_beside_the_step(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    html = client.get(url("settling.decant", key=batch.pk, row=standing.pk)).content.decode()
    assert "Never start a siphon with your mouth" in html


def test_the_tap_is_asked_once(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    Garden.objects.update(tap_ph=7.4)
    form = client.get(url("settling.decant", key=batch.pk, row=standing.pk)).context["form"]
    assert "tap_ph" not in form.fields
    assert "tap_conductivity" in form.fields


def test_nothing_need_be_measured(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    bare = dict.fromkeys(entry(), "") | {"decanted_at": typed(moment())}
    assert client.post(url("settling.decant", key=batch.pk, row=standing.pk), bare).status_code == 302
    now = Standing.objects.get(pk=standing.pk)
    assert (now.left_l, now.left_typed, now.ph, now.blue_in_decant) == (None, "", None, None)
    assert Garden.objects.get(pk=garden.pk).tap_ph is None


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("left", "2 kg", "volume"),
        ("ph", "15", "less than or equal to 14"),
        ("blue_in_decant", "9", "not one of"),
        ("decanted_at", typed(moment(8)), "before it was left to stand"),
        ("decanted_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    batch, standing = a_settling_batch(garden)
    where = url("settling.decant", key=batch.pk, row=standing.pk)
    refused(client, where, entry(**{field: text}), field=field, says=says)
    assert Standing.objects.get(pk=standing.pk).decanted_at is None


def test_a_wrong_key_and_a_strangers_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    strange, theirs = a_settling_batch(other_garden)
    for key, row in ((batch.pk, NOBODY), (NOBODY, standing.pk), (strange.pk, theirs.pk), (batch.pk, theirs.pk)):
        assert client.post(url("settling.decant", key=key, row=row), entry()).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("settling.decant", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused_and_statements_stay_few(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    where = url("settling.decant", key=batch.pk, row=standing.pk)
    only(client, where, "get", "post")
    flat(client, where, lambda: a_settling_batch(garden))
