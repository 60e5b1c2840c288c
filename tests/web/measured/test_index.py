"""`/measured/`: what was measured, the newest first."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from bluewright.web.ui import turning
from tests.web.checks import flat, only, to_the_start_without_a_garden, url
from tests.web.measuring import a_jar_look, measured_cloth

pytestmark = pytest.mark.django_db


def test_each_stands_with_its_colours_and_looks_at_jars_stand_elsewhere(
    client: Client, garden: Garden, steeping: Steep
) -> None:
    row = measured_cloth(client, garden, of=steeping)
    a_jar_look(client, garden, of=steeping, kind="tub")
    rows = client.get(url("measured.index")).context["page"].rows
    assert [(one.name, one.page, len(one.chips)) for one in rows] == [
        ("First dip", url("measured.show", key=row.pk), 1)
    ]


def test_a_long_list_stands_on_pages_and_the_oldest_can_be_reached(
    client: Client, garden: Garden, steeping: Steep, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(turning, "PAGE", 1)
    keys = [measured_cloth(client, garden, of=steeping, seed=seed).pk for seed in (1, 2)]
    first, last = (client.get(url("measured.index"), {"page": n}).context["page"] for n in (1, 2))
    assert [one.page for one in (*first.rows, *last.rows)] == [url("measured.show", key=key) for key in keys[::-1]]
    assert "?page=2" in [link.href for link in first.pages]


def test_of_an_empty_garden_it_says_how_to_begin(client: Client, garden: Garden) -> None:
    assert "Nothing is measured yet." in client.get(url("measured.index")).content.decode()


def test_a_stranger_s_are_not_shown(client: Client, other_garden: Garden, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    type(row.photo).objects.filter(pk=row.photo.pk).update(garden=other_garden)
    assert client.get(url("measured.index")).context["page"].rows == ()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("measured.index"))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("measured.index"), "get")


def test_more_rows_need_no_more_statements(client: Client, garden: Garden, steeping: Steep) -> None:
    measured_cloth(client, garden, of=steeping)
    flat(client, url("measured.index"), lambda: measured_cloth(client, garden, of=steeping, seed=2))


def test_its_json_twin_says_the_same(client: Client, garden: Garden, steeping: Steep) -> None:
    measured_cloth(client, garden, of=steeping)
    assert client.get(url("measured.index"), {"as": "json"}).json()["rows"][0]["name"] == "First dip"
