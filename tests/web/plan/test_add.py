"""`/plan/add/<what>/`: cloth or pigment that is wanted."""

from datetime import date

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Want
from tests.web.checks import filled_with, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db

SHAWL = {"name": "Two shawls", "fibre": "wool", "mass": "1 lb 4 oz", "depth": "medium", "basis": "conditioned"}


def where(what: str = "cloth") -> str:
    return url("plan.add", what=what)


def test_cloth_is_written_down_with_what_was_typed(client: Client, garden: Garden) -> None:
    response = client.post(where(), SHAWL | {"by_day": "2027-03-01"}, follow=True)
    row = Want.objects.get()
    assert (row.what, row.fibre, row.depth, row.mass_typed) == ("cloth", "wool", "medium", "1 lb 4 oz")
    assert row.mass_g == pytest.approx(20 * 28.349523125)
    assert row.by_day == date(2027, 3, 1)
    assert url("plan.delete", key=row.pk) in [message.extra_tags for message in response.context["messages"]]


def test_pigment_by_the_purity_of_its_powder(client: Client, garden: Garden) -> None:
    client.post(where("pigment"), {"name": "Market", "mass": "100 g", "purity": "30 %"})
    row = Want.objects.get()
    assert (row.what, row.mass_g, row.purity_frac, row.by_day) == ("pigment", 100.0, 0.3, None)


def test_a_share_to_be_fixed_stands_for_the_depth(client: Client, garden: Garden) -> None:
    client.post(where(), SHAWL | {"depth": "", "fixed": "1.8 %"})
    assert Want.objects.get().fixed_frac == pytest.approx(0.018)


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"depth": ""}, "depth", "Choose a depth"),
        ({"mass": "some"}, "mass", "some"),
        ({"mass": "2 m"}, "mass", "2 m"),
        ({"fixed": "60 %"}, "fixed", "give"),
        ({"fibre": "rope"}, "fibre", "rope"),
        ({"by_day": "soon"}, "by_day", "date"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, typed: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(Want)
    refused(client, where(), SHAWL | typed, field=field, says=says)
    unchanged()


def test_bare_numbers_are_grams_or_ounces(client: Client, garden: Garden) -> None:
    client.post(where(), SHAWL | {"mass": "600"})
    assert Want.objects.get().mass_typed == "600 g"
    garden.system = "us"
    garden.save()
    client.post(where(), SHAWL | {"mass": "20", "name": "other"})
    assert Want.objects.get(name="other").mass_typed == "20 oz"


def test_nothing_posted_is_refused(client: Client, garden: Garden) -> None:
    assert client.post(where(), {}).status_code == 422
    assert client.post(where("pigment"), {}).status_code == 422


def test_there_is_no_other_kind(client: Client, garden: Garden) -> None:
    assert client.get(where("tea")).status_code == 404


def test_the_form_begins_with_cloth_of_a_room(client: Client, garden: Garden) -> None:
    assert filled_with(client, where()).get("basis") in {None, "conditioned"}


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(), "get", "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, where())
