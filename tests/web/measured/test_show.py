"""`/measured/<key>/`: one measurement, as it was found then."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Measured, Steep
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.measuring import measured_cloth

pytestmark = pytest.mark.django_db


def where(row: Measured) -> str:
    return url("measured.show", key=row.pk)


def test_it_says_what_was_found_when_and_where(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    page = client.get(where(row)).context["page"]
    assert (page.name, page.of, page.by) == ("First dip", "Tub 3", row.program)
    assert [chip.name for chip in page.found.chips] == ["Sample 1: L* 38, a* -2, b* -22"]
    assert page.boxes == ("sample 1: 240 by 200 points at 340, 200", "white: 200 by 120 points at 20, 20")
    assert page.again == url("measured.draw", photo=row.photo.pk) + f"?like={row.pk}"


def test_what_was_found_then_stays_as_it_was(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    row.answer["samples"][0]["lab"] = [50.0, 0.0, 0.0]
    row.save()
    assert client.get(where(row)).context["page"].found.chips[0].name == "Sample 1: L* 50, a* 0, b* 0"


def test_of_a_photo_that_is_gone_there_is_none(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    delete(row.photo, by=None)
    assert client.get(where(row)).status_code == 404


def test_strangers_and_wrong_keys_get_nothing(
    client: Client, other_garden: Garden, garden: Garden, steeping: Steep
) -> None:
    row = measured_cloth(client, garden, of=steeping)
    type(row.photo).objects.filter(pk=row.photo.pk).update(garden=other_garden)
    assert client.get(where(row)).status_code == 404
    assert client.get(url("measured.show", key=NOBODY)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("measured.show", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(measured_cloth(client, garden, of=steeping)), "get")


def test_more_measurements_need_no_more_statements(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    flat(client, where(row), lambda: measured_cloth(client, garden, of=steeping, seed=2))


def test_its_json_twin_says_the_same(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    twin = client.get(where(row), {"as": "json"}).json()
    assert twin["found"]["chips"][0]["name"] == "Sample 1: L* 38, a* -2, b* -22"
