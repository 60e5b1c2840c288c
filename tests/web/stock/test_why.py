"""`/stock/why/<figure>/`: why a figure of the cupboard is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, url
from tests.web.whys import explained, knows_no_other

pytestmark = pytest.mark.django_db


def where() -> str:
    return url("stock.why", figure="alkalis.0.strength_factor")


def test_a_figure_is_explained(client: Client, garden: Garden) -> None:
    cast.an_alkali(garden, pack_amount=1000.0, pack_typed="1 L", opened_on=cast.a_day(60))
    assert "Its strength now beside that of a new pack" in explained(client, where()).figure.meaning
    knows_no_other(client, "stock.why")


def test_without_a_pack_it_leads_back_with_a_word(client: Client, garden: Garden) -> None:
    assert "Of no alkali is it known what a pack holds." in client.get(where(), follow=True).content.decode()


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(), "get")
