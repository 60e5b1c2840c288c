"""`/costs/prices/`: what work, water and blue cost."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests.web.checks import filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
TYPED = {
    "currency": "EUR", "money_decimals": "2", "wage": "12,50", "water": "3.2", "price": "14", "margin": "20",
    "allowance": "8",
}  # fmt: skip


def where() -> str:
    return url("costs.prices")


def test_they_are_written_down_and_shown_again_as_they_are(client: Client, garden: Garden) -> None:
    assert client.post(where(), TYPED)["Location"] == url("costs.index")
    garden.refresh_from_db()
    assert (garden.currency, garden.wage_money_per_h, garden.water_money_per_m3) == ("EUR", 12.5, 3.2)
    assert (garden.price_money_per_g, garden.margin_frac, garden.allowance_frac) == (14.0, 0.2, 0.08)
    again = filled_with(client, where())
    assert (again["wage"], again["water"], again["margin"], again["allowance"]) == (12.5, 3.2, 20.0, 8.0)
    assert Change.objects.filter(row_id=garden.pk).count() == 1
    client.post(where(), TYPED)
    assert Change.objects.filter(row_id=garden.pk).count() == 1, "nothing was changed the second time"


def test_all_may_be_left_out(client: Client, garden: Garden) -> None:
    client.post(where(), {"money_decimals": "2"})
    garden.refresh_from_db()
    assert (garden.wage_money_per_h, garden.water_money_per_m3, garden.price_money_per_g) == (None, None, None)


def test_where_water_is_sold_by_gallons_it_is_priced_so(client: Client, garden: Garden) -> None:
    """A US gallon is 3.785411784 L by definition: 9 for a thousand gallons are 2.3775 for a cubic metre."""
    garden.system = "us"
    garden.save()
    assert "A thousand gallons of water cost" in client.get(where()).content.decode()
    client.post(where(), TYPED | {"water": "9"})
    garden.refresh_from_db()
    assert garden.water_money_per_m3 == pytest.approx(2.37755, abs=1e-4)
    assert filled_with(client, where())["water"] == 9.0


@pytest.mark.parametrize(
    ("wrong", "field", "says"),
    [
        ({"wage": "much"}, "wage", "number"),
        ({"margin": "96"}, "margin", "95"),
        ({"price": "-1"}, "price", "0"),
        ({"currency": "doubloons"}, "currency", "8"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, wrong: dict[str, str], field: str, says: str
) -> None:
    refused(client, where(), TYPED | wrong, field=field, says=says)
    garden.refresh_from_db()
    assert garden.currency == ""


def test_it_is_read_and_posted_to(client: Client, garden: Garden) -> None:
    only(client, where(), "get", "post")
    to_the_start_without_a_garden(client, where())
