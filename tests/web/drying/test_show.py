"""`/drying/<key>/`: the dishes of a batch."""

import re

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Drying, Garden, Weighing
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.working import a_drying_batch, a_working_batch

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("drying.show", key=batch.pk)


def test_before_the_first_dish_it_says_what_to_do(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    response = client.get(where(batch))
    page = response.context["page"]
    assert (page.dishes, page.ready) == ((), False)
    assert url("drying.begin", key=batch.pk) in response.content.decode()


def test_a_dish_is_answered_with_range_chart_caution_and_the_next_weighing(client: Client, garden: Garden) -> None:
    batch, _drying = a_drying_batch(garden)
    (dish,) = client.get(where(batch)).context["page"].dishes
    assert re.search(r"\([\d.]+ to [\d.]+\)", dish.answer.first), "a range, always"
    assert dish.answer.chart.startswith("<svg")
    assert any("dust mask" in text for text in dish.answer.take_care)
    assert dish.again.startswith("Weigh it again")
    assert [row.said for row in dish.weighings] == ["150 g", "190 g", "240 g"]


def test_two_weighings_a_day_apart_that_hardly_differ_are_dry(client: Client, garden: Garden) -> None:
    """30.0 and 29.9 g of paste: a three hundredth a day."""
    dry = ((90.0, 240.0), (66.0, 160.0), (50.0, 135.0), (30.0, 130.0), (5.0, 129.9))
    batch, _drying = a_drying_batch(garden, *dry)
    response = client.get(where(batch))
    (dish,) = response.context["page"].dishes
    assert (dish.dry, dish.again) == (True, "")
    assert f"{url('jars.fill')}?batch={batch.pk}" in response.content.decode()


def test_several_dishes_stand_beside_each_other_each_with_its_own_field(client: Client, garden: Garden) -> None:
    batch, first = a_drying_batch(garden, ended_at=cast.moment())
    second = cast.a_drying(batch, (20.0, 230.0), note="blue saucer")
    response = client.get(where(batch))
    page, html = response.context["page"], response.content.decode()
    assert [dish.key for dish in page.dishes] == [str(second.pk), str(first.pk)]
    assert page.dishes[0].title == "blue saucer"
    assert page.ready, "the first was taken for dry"
    ids = re.findall(r'\bid="([^"]+)"', html)
    assert len(ids) == len(set(ids))


def test_a_dish_whose_weighings_were_all_taken_out_says_so(client: Client, garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    Weighing.objects.filter(drying=drying).update(deleted_at=cast.moment())
    (dish,) = client.get(where(batch)).context["page"].dishes
    assert "nothing was weighed yet" in dish.trouble


def test_paste_that_grew_is_said_in_words(client: Client, garden: Garden) -> None:
    batch, _drying = a_drying_batch(garden, (50.0, 150.0), (20.0, 240.0))
    (dish,) = client.get(where(batch)).context["page"].dishes
    assert "grew from 150 to 240 g" in dish.trouble


def test_the_page_is_there_as_json(client: Client, garden: Garden) -> None:
    batch, _drying = a_drying_batch(garden)
    twin = client.get(where(batch), {"as": "json"}).json()
    assert (twin["head"]["name"], len(twin["dishes"])) == ("Batch 9", 1)


def test_there_is_no_batch_of_a_wrong_key_nor_a_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("drying.show", key=NOBODY)).status_code == 404
    assert client.get(where(a_working_batch(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("drying.show", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(a_working_batch(garden)), "get")


def test_more_dishes_and_weighings_need_no_more_statements(client: Client, garden: Garden) -> None:
    batch, _drying = a_drying_batch(garden)

    def more() -> list[Drying]:
        return [cast.a_drying(batch, (20.0, 230.0), (10.0, 200.0)) for _ in range(3)]

    flat(client, where(batch), more)
