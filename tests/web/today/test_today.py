"""`/`: what wants doing, the most urgent first."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from tests.cast import a_garden, a_picking, a_tub
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/"


def matters(client: Client) -> list[dict[str, object]]:
    found: list[dict[str, object]] = client.get(WHERE, {"as": "json"}).json()["matters"]
    return found


def test_a_tub_that_steeps_wants_something_and_one_that_is_strained_does_not(
    client: Client, garden: Garden, steeping: Steep
) -> None:
    response = client.get(WHERE)
    assert response.status_code == 200
    assert [m.key for m in response.context["page"].matters] == [str(steeping.pk)]
    assert url("tubs.show", key=steeping.pk) in response.content.decode()


def test_leaf_that_waits_leads_to_a_tub_for_it(client: Client, garden: Garden) -> None:
    picking = a_picking(garden, leaf_typed="7 lb")
    assert any("7 lb" in str(m["what"]) and m["key"] == str(picking.pk) for m in matters(client))
    assert f"{url('tubs.begin')}?picking={picking.pk}" in client.get(WHERE).content.decode()


def test_the_most_urgent_comes_first(client: Client, garden: Garden) -> None:
    a_picking(garden)
    a_tub(garden)
    urgencies = [float(str(m["urgency"])) for m in matters(client)]
    assert len(urgencies) == 3
    assert urgencies == sorted(urgencies)


def test_a_tub_without_forecast_says_why(client: Client, garden: Garden) -> None:
    tub = a_tub(garden, leaf=[])
    (found,) = [m for m in matters(client) if m["key"] == str(tub.pk)]
    assert "no forecast" in str(found["why"])


def test_with_nothing_to_do_it_says_so(client: Client, db: None) -> None:
    a_garden()
    response = client.get(WHERE)
    assert response.context["page"].matters == ()
    assert "Nothing wants doing" in response.content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, db: None) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_a_stranger_s_tubs_and_leaf_are_not_shown(client: Client, other_garden: Garden) -> None:
    theirs = a_tub(other_garden)
    waiting = a_picking(other_garden)
    assert not {str(theirs.pk), str(waiting.pk)} & {str(m["key"]) for m in matters(client)}


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_tubs_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, WHERE, lambda: [a_tub(garden) for _ in range(2)] + [a_picking(garden) for _ in range(2)])


def test_its_json_twin_says_the_same(client: Client, garden: Garden) -> None:
    page = client.get(WHERE).context["page"]
    assert [m["what"] for m in matters(client)] == [m.what for m in page.matters]
