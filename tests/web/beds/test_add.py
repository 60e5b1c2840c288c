"""`/beds/add/`: a new bed."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, BedPast, Garden
from tests.cast import a_day, a_garden
from tests.web.checks import no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/beds/add/"
TYPED = {"name": "East", "plant": "japanese_indigo", "origin": "transplanted", "area": "100 ft2", "note": "stony"}


def test_a_bed_is_written_as_typed_and_in_square_metres(client: Client, garden: Garden) -> None:
    """A foot is 0.3048 m by definition, so 100 square feet are 9.290304 square metres."""
    assert client.get(WHERE).status_code == 200
    response = client.post(WHERE, TYPED)
    assert (response.status_code, response["Location"]) == (302, url("beds.index"))
    bed = Bed.objects.get(name="East")
    assert (bed.garden, bed.plant, bed.origin, bed.note) == (garden, "japanese_indigo", "transplanted", "stony")
    assert bed.area_typed == "100 ft2"
    assert bed.area_m2 == pytest.approx(9.290304)
    assert bed.made_by is not None


def test_the_area_may_be_left_out(client: Client, garden: Garden) -> None:
    client.post(WHERE, TYPED | {"area": ""})
    bed = Bed.objects.get(name="East")
    assert (bed.area_m2, bed.area_typed) == (None, "")


def test_in_an_empty_garden_it_works_too(client: Client) -> None:
    a_garden()
    assert client.post(WHERE, TYPED).status_code == 302


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [("name", "", "required"), ("area", "5 kg", "area"), ("area", "-3 m2", "-3"), ("plant", "oak", "not one of")],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    unchanged = no_rows(Bed)
    refused(client, WHERE, TYPED | {field: text}, field=field, says=says)
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE, "post")
    assert not Bed.everything.exists()


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")


def test_what_grew_there_before_is_asked_and_answered_at_once(client: Client, garden: Garden) -> None:
    """Common practice, no source: four years between crops of one family; after clubroot seven (PNW handbook)."""
    year = a_day().year
    woad = TYPED | {"plant": "woad", "cabbage_year": str(year - 1)}
    html = client.post(WHERE, woad, follow=True).content.decode()
    assert f"East: Better wait 3 years more, until {year + 3}" in html
    assert BedPast.objects.get().family == "cabbage"
    html = client.post(WHERE, woad | {"name": "West", "clubroot": "on"}, follow=True).content.decode()
    assert f"West: Not here yet: clubroot was seen. Wait 6 years more, until {year + 6}." in html


def test_swollen_roots_want_a_year(client: Client, garden: Garden) -> None:
    unchanged = no_rows(Bed, BedPast)
    refused(client, WHERE, TYPED | {"clubroot": "on"}, field="cabbage_year", says="In which year")
    refused(client, WHERE, TYPED | {"cabbage_year": "2999"}, field="cabbage_year", says="still to come")
    unchanged()
