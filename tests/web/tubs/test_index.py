"""`/tubs/`: all tubs, those that steep first."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from tests.cast import a_garden, a_look, a_tub
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/tubs/"


def test_tubs_that_steep_come_before_those_that_are_strained(
    client: Client, garden: Garden, steeping: Steep, strained: Steep
) -> None:
    response = client.get(WHERE)
    assert [tub.key for tub in response.context["tubs"]] == [str(steeping.pk), str(strained.pk)]
    page = response.content.decode()
    assert url("tubs.show", key=steeping.pk) in page
    assert "6 kg of leaf in 40 L of water" in page


def test_without_tubs_it_says_so(client: Client) -> None:
    a_garden()
    assert "No tub yet" in client.get(WHERE).content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_a_stranger_s_tubs_are_not_shown(client: Client, strangers_tub: Steep) -> None:
    assert str(strangers_tub.pk) not in client.get(WHERE).content.decode()


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_tubs_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, WHERE, lambda: [a_look(a_tub(garden)) for _ in range(4)])
