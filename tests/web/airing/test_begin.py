"""`/airing/<key>/begin/?way=`: choose how to air."""

import pytest
from django.test import Client

from bluewright.journal.models import Airing, Batch, Garden
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url
from tests.web.working import a_working_batch, an_aired_batch

pytestmark = pytest.mark.django_db


def where(batch: Batch, way: str = "pour") -> str:
    return f"{url('airing.begin', key=batch.pk)}?way={way}"


def entry(**other: str) -> dict[str, str]:
    return {"height": "2 ft", "pour": "1 gal", "vessel": "", "started_at": typed(moment()), "note": "", **other}


def test_pouring_is_begun_as_typed(client: Client, garden: Garden) -> None:
    """A foot is 0.3048 m and a US gallon 3.785411784 L by definition."""
    batch = a_working_batch(garden)
    assert client.get(where(batch)).status_code == 200
    response = client.post(where(batch), entry(), follow=True)
    assert response.redirect_chain == [(url("airing.show", key=batch.pk), 302)]
    made = Airing.objects.get(batch=batch)
    assert (made.way, made.height_typed, made.pour_typed, made.done_pours) == ("pour", "2 ft", "1 gal", None)
    assert (made.height_m, made.pour_l) == pytest.approx((0.6096, 3.785411784))
    assert made.vessel_diameter_m is None
    undo = url("airing.delete", key=batch.pk, row=made.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_each_way_asks_only_what_belongs_to_it(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    asked = {way: set(client.get(where(batch, way)).context["form"].fields) for way in ("pour", "whisk", "bubble")}
    always = {"vessel", "started_at", "note"}
    assert asked["pour"] == {"height", "pour"} | always
    assert asked["whisk"] == {"tool"} | always
    assert asked["bubble"] == {"air_l_per_min", "bubbles"} | always


def test_a_pump_needs_its_litres(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    typed_in = {"air_l_per_min": "", "bubbles": "fine", "vessel": "", "started_at": typed(moment()), "note": ""}
    refused(client, where(batch, "bubble"), typed_in, field="air_l_per_min", says="required")
    client.post(where(batch, "bubble"), typed_in | {"air_l_per_min": "2,5"})
    assert Airing.objects.get(batch=batch).air_l_per_min == 2.5


def test_what_was_known_of_the_way_last_time_is_filled_in(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden, height_m=0.6, height_typed="60 cm")
    form = client.get(where(batch)).context["form"]
    assert form["height"].value() == "60 cm"


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("height", "3 kg", "length"),
        ("pour", "900 L", "cannot be"),
        ("started_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    batch = a_working_batch(garden)
    unchanged = no_rows(Airing)
    refused(client, where(batch), entry(**{field: text}), field=field, says=says)
    unchanged()


def test_there_is_no_other_way(client: Client, garden: Garden) -> None:
    assert client.get(where(a_working_batch(garden), "wish")).status_code == 404


def test_a_wrong_key_and_a_strangers_batch_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    unchanged = no_rows(Airing)
    for key in (NOBODY, a_working_batch(other_garden).pk):
        assert client.get(url("airing.begin", key=key)).status_code == 404
        assert client.post(url("airing.begin", key=key), entry()).status_code == 404
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("airing.begin", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(a_working_batch(garden)), "get", "post")


def test_more_airings_need_no_more_statements(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    flat(client, where(batch), lambda: an_aired_batch(garden))
