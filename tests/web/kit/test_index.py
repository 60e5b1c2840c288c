"""`/costs/kit/`: what was bought for years, written down by the owner and shared by the costs."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, KitItem
from tests import cast
from tests.web.checks import flat, only, refused, to_the_start_without_a_garden, url
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
WHERE = "/costs/kit/"
TYPED = {"name": "Press", "paid": "120,50", "lasts_years": "10", "lasts_batches": "", "left": "20"}


def test_a_thing_is_written_down_and_its_share_is_in_the_costs(client: Client, garden: Garden) -> None:
    """By hand: a press of 120.5, worth 20 in the end, over ten years of one batch each: about 10 a batch."""
    cast.a_jar_from_the_bed(garden, pigment_g=12.0)
    garden.batches.exclude(jarred__isnull=False).delete()
    client.post(WHERE, TYPED)
    row = KitItem.objects.get(garden=garden)
    assert (row.name, row.paid_money, row.left_money, row.lasts_years, row.lasts_batches) == (
        "Press",
        120.5,
        20.0,
        10,
        None,
    )
    assert "120.50" in client.get(WHERE).context["page"].rows[0].said
    parts = client.get(url("costs.index")).context["page"].parts
    (share,) = [cells for _advised, cells in parts.rows if cells[0] == "share of the kit"]
    assert 9 < float(share[3].split()[0]) < 11.5


@pytest.mark.parametrize(
    ("wrong", "field", "says"),
    [
        ({"lasts_years": ""}, "lasts_batches", "one of the two"),
        ({"lasts_batches": "5"}, "lasts_batches", "one of the two"),
        ({"left": "130"}, "left", "more than was paid"),
        ({"paid": "much"}, "paid", "number"),
    ],
)
def test_a_mistake_keeps_the_typing(
    client: Client, garden: Garden, wrong: dict[str, str], field: str, says: str
) -> None:
    refused(client, WHERE, TYPED | wrong, field=field, says=says)
    assert not KitItem.objects.exists()


def test_helpers_neither_see_nor_write_it(client: Client, garden: Garden) -> None:
    helper = visitor("helper")
    assert helper.get(WHERE).status_code == helper.post(WHERE, TYPED).status_code == 403
    assert WHERE not in helper.get(url("costs.index")).content.decode()
    assert helper.post(url("costs.prices"), {"money_decimals": "2"}).status_code == 403
    assert url("costs.prices") not in helper.get(url("costs.index")).content.decode()


def test_more_things_need_no_more_statements_and_another_garden_s_are_not_shown(
    client: Client, garden: Garden, other_garden: Garden
) -> None:
    cast.a_kit_item(other_garden)
    cast.a_kit_item(garden)
    assert len(client.get(WHERE, {"as": "json"}).json()["rows"]) == 1
    flat(client, WHERE, lambda: [cast.a_kit_item(garden, name=f"sieve {k}") for k in range(3)])


def test_it_is_read_and_posted_to(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")
    to_the_start_without_a_garden(client, WHERE)
