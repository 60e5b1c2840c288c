"""`/past/<bed>/year/`: what grew there in a year."""

import pytest
from django.test import Client

from bluewright.journal.models import BedPast, Garden
from tests import cast
from tests.web.checks import no_rows, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db
YEAR = cast.a_day().year


def test_it_is_written_down_even_of_years_before_the_journal(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden)
    typed = {"year": "1998", "crop": "swedes", "family": "cabbage", "clubroot": "on", "note": "says the neighbour"}
    response = client.post(url("past.year", key=bed.pk), typed)
    assert (response.status_code, response["Location"]) == (302, url("past.show", key=bed.pk))
    row = BedPast.objects.get(bed=bed)
    assert (row.year, row.crop, row.family, row.clubroot, row.note) == (
        1998, "swedes", "cabbage", True, "says the neighbour"
    )  # fmt: skip
    assert row.made_by is not None


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"year": ""}, "year", "required"),
        ({"year": str(YEAR + 1)}, "year", "still to come"),
        ({"year": "1492"}, "year", "1900"),
        ({"year": "soon"}, "year", "whole number"),
        ({"family": "grass"}, "family", "grass"),
        ({"family": "other", "clubroot": "on"}, "clubroot", "cabbage family only"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, typed: dict[str, str], field: str, says: str
) -> None:
    bed, unchanged = cast.a_bed(garden), no_rows(BedPast)
    whole = {"year": str(YEAR - 1), "crop": "kale", "family": "cabbage"} | typed
    response = client.post(url("past.year", key=bed.pk), whole)
    assert response.status_code == 422
    form = response.context["form"]
    assert says in " ".join(form.errors[field])
    assert form["crop"].value() == "kale"
    unchanged()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.a_bed(other_garden)
    posts_only_to_what_is_there(client, "past.year", other_garden=other_garden, key=strange.pk)
