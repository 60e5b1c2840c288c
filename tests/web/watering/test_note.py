"""`/watering/<bed>/note/`: what was given, how the soil felt, how it looks."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Garden, WaterNote
from tests import cast
from tests.web.checks import no_rows, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def where(bed: Bed) -> str:
    return url("watering.note", key=bed.pk)


def today() -> str:
    return cast.a_day().isoformat()


def test_it_is_written_down_with_what_was_typed(client: Client, bed: Bed) -> None:
    """A US gallon is 3.785411784 L by definition."""
    typed = {"water": "30 gal", "felt": "dry", "stage": "half_cover", "day": today()}
    response = client.post(where(bed), typed)
    assert (response.status_code, response["Location"]) == (302, url("watering.show", key=bed.pk))
    row = WaterNote.objects.get(bed=bed)
    assert row.water_l == pytest.approx(113.56235)
    assert (row.water_typed, row.felt, row.stage, row.day) == ("30 gal", "dry", "half_cover", cast.a_day())
    assert row.made_by is not None


def test_one_of_the_three_is_enough(client: Client, bed: Bed) -> None:
    client.post(where(bed), {"felt": "wet", "day": today()})
    row = WaterNote.objects.get(bed=bed)
    assert (row.water_l, row.water_typed, row.felt, row.stage) == (None, "", "wet", "")


def test_the_same_form_sent_twice_is_one_note(client: Client, bed: Bed) -> None:
    html = client.get(url("watering.show", key=bed.pk)).content.decode()
    once = html.split('name="once" value="')[1].split('"')[0]
    for _ in range(2):
        client.post(where(bed), {"felt": "wet", "day": today(), "once": once})
    assert WaterNote.objects.count() == 1


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({}, "__all__", "Say what was given"),
        ({"water": "much"}, "water", "much"),
        ({"felt": "soggy"}, "felt", "soggy"),
        ({"felt": "wet", "day": "2999-01-01"}, "day", "still to come"),
        ({"felt": "wet", "day": "2001-01-01"}, "day", "too long ago"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, bed: Bed, typed: dict[str, str], field: str, says: str) -> None:
    unchanged = no_rows(WaterNote)
    response = client.post(where(bed), {"day": today()} | typed)
    assert response.status_code == 422
    form = response.context["form"]
    assert says in " ".join(form.errors[field])
    for name, text in typed.items():
        assert form[name].value() == text
    assert response.context["page"].answer is not None, "the advice stays beside it"
    unchanged()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.a_bed(other_garden)
    posts_only_to_what_is_there(client, "watering.note", other_garden=other_garden, key=strange.pk)
