"""`/drying/<key>/begin/`: put a dish to dry."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Drying, Garden, Weighing
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url
from tests.web.working import a_drying_batch, a_working_batch

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("drying.begin", key=batch.pk)


def entry(**other: str) -> dict[str, str]:
    plain = {
        "dish": "212 g", "total": "12 oz", "scale_sd_g": "0.1", "layer": "1/4 in", "temp": "70 F", "humidity": "45",
        "started_at": typed(moment()), "note": "",
    }  # fmt: skip
    return plain | other


def test_a_dish_is_written_with_its_first_weighing(client: Client, garden: Garden) -> None:
    """Twelve ounces are 12 x 28.349523125 g, a quarter of an inch 6.35 mm by definition; 70 F are 21.11 C."""
    batch = a_working_batch(garden)
    assert client.get(where(batch)).status_code == 200
    response = client.post(where(batch), entry(), follow=True)
    assert response.redirect_chain == [(url("drying.show", key=batch.pk), 302)]
    made = Drying.objects.get(batch=batch)
    assert (made.dish_g, made.layer_mm, made.humidity_frac, made.scale_sd_g) == pytest.approx((212.0, 6.35, 0.45, 0.1))
    assert made.temp_c == pytest.approx(21.11, abs=0.01)
    first = Weighing.objects.get(drying=made)
    assert (first.total_typed, first.weighed_at) == ("12 oz", moment())
    assert first.total_g == pytest.approx(340.1942775)
    undo = url("drying.delete", key=batch.pk, row=made.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_only_the_weights_must_be_known(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    client.post(where(batch), entry(layer="", temp="", humidity=""))
    made = Drying.objects.get(batch=batch)
    assert (made.layer_mm, made.temp_c, made.humidity_frac) == (None, None, None)


def test_scale_and_air_of_the_last_dish_are_filled_in(client: Client, garden: Garden) -> None:
    batch, _drying = a_drying_batch(garden, humidity_frac=0.6, scale_sd_g=0.02)
    form = client.get(where(batch)).context["form"]
    assert (form["humidity"].value(), form["scale_sd_g"].value(), form["dish"].value()) == ("60", "0.02", "")


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("total", "212 g", "not more than the empty dish"),
        ("dish", "heavy", "heavy"),
        ("humidity", "140", "less than or equal to 99"),
        ("scale_sd_g", "7", "not one of"),
        ("started_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    unchanged = no_rows(Drying, Weighing)
    refused(client, where(a_working_batch(garden)), entry(**{field: text}), field=field, says=says)
    unchanged()


def test_a_wrong_key_and_a_strangers_batch_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, a_working_batch(other_garden).pk):
        assert client.get(url("drying.begin", key=key)).status_code == 404
        assert client.post(url("drying.begin", key=key), entry()).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("drying.begin", key=NOBODY))


def test_other_methods_are_refused_and_statements_stay_few(client: Client, garden: Garden) -> None:
    batch, _drying = a_drying_batch(garden)
    only(client, where(batch), "get", "post")
    flat(client, where(batch), lambda: a_drying_batch(garden))
