"""`/gardens/<key>/change/`: correct a garden, and say how high it lies and what its water is."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests.web.checks import NOBODY, filled_with, only, refused, url

pytestmark = pytest.mark.django_db


def where(garden: Garden) -> str:
    return url("gardens.change", key=garden.pk)


def test_height_and_water_are_written_as_people_know_them(client: Client, garden: Garden) -> None:
    """Own hand: a foot is 0.3048 m, so 900 ft are 274.32 m; 6 German degrees of 17.848 mg/L are 107.088 mg/L."""
    entry = filled_with(client, where(garden))
    assert entry["name"] == "Marl Bank"
    entry |= {"altitude": "900 ft", "water_alkalinity": "6 °dH", "water_hardness": "150"}
    response = client.post(where(garden), entry, follow=True)
    assert response.redirect_chain == [(where(garden), 302)]
    changed = Garden.objects.get(pk=garden.pk)
    assert changed.altitude_m == pytest.approx(274.32)
    assert changed.water_alkalinity_mg_caco3_l == pytest.approx(107.088)
    assert (changed.water_hardness_mg_caco3_l, changed.water_alkalinity_typed) == (150.0, "6 °dH")
    assert (changed.name, changed.invented) == ("Marl Bank", True)
    assert filled_with(client, where(garden))["altitude"] == "900 ft"


def test_what_is_unknown_stays_unknown_and_nothing_corrected_is_nothing_written(client: Client, garden: Garden) -> None:
    client.post(where(garden), filled_with(client, where(garden)))
    changed = Garden.objects.get(pk=garden.pk)
    assert (changed.altitude_m, changed.water_hardness_mg_caco3_l) == (None, None)
    assert not Change.objects.filter(row_id=garden.pk).exists()


def test_a_change_is_told_with_what_it_said_before(client: Client, garden: Garden) -> None:
    response = client.post(where(garden), filled_with(client, where(garden)) | {"name": "Marl End"}, follow=True)
    assert "Before, it said: name Marl Bank." in response.content.decode()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("name", "", "required"),
        ("time_zone", "Mars/Base", "not a time zone"),
        ("altitude", "9000 m", "cannot be"),
        ("water_hardness", "3 mmol/L", "no unit known"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    refused(client, where(garden), filled_with(client, where(garden)) | {field: text}, field=field, says=says)
    assert not Change.objects.filter(row_id=garden.pk).exists()


def test_there_is_no_garden_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("gardens.change", key=NOBODY)).status_code == 404


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(garden), "get", "post")
