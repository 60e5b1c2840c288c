"""`/past/<bed>/`: what grew here, and may its plant follow?"""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
YEAR = cast.a_day().year


def where(bed: Bed) -> str:
    return url("past.show", key=bed.pk)


def test_woad_two_years_after_cabbages_waits_two_more(client: Client, bed: Bed) -> None:
    """Common practice, no source: four years between crops of one family."""
    cast.a_year(bed, years_ago=2)
    page = client.get(where(bed)).context["page"]
    assert page.asked == f"To sow woad in {YEAR}"
    assert page.answer.first.startswith(f"Better wait 2 years more, until {YEAR + 2}")
    assert page.again is None


def test_after_clubroot_it_is_seven_years(client: Client, bed: Bed) -> None:
    """Pacific Northwest handbook: at least seven years, all of the cabbage family."""
    cast.a_year(bed, years_ago=5, clubroot=True)
    page = client.get(where(bed)).context["page"]
    assert page.answer.first == f"Not here yet: clubroot was seen. Wait 2 years more, until {YEAR + 2}."
    assert page.years[0].said == "Kale; the cabbage family; roots were swollen: clubroot"


def test_clubroot_that_a_look_found_counts_too(client: Client, bed: Bed) -> None:
    cast.a_bed_look(bed, days_ago=370, spotted="5 5", cause="clubroot")
    assert client.get(where(bed)).context["page"].answer.first.startswith("Not here yet: clubroot was seen.")


def test_woad_that_stands_is_no_reason_against_itself_but_against_the_next(client: Client, bed: Bed) -> None:
    cast.a_bed_look(bed, days_ago=3, began="sown")
    sown = cast.a_day(3).year
    page = client.get(where(bed)).context["page"]
    assert page.asked == f"The woad of {sown}"
    assert page.answer.first.startswith("It fits")
    assert page.again_asked == f"To sow woad again in {YEAR + 1}"
    assert page.again.first.startswith("Better wait")
    assert (page.years[0].year, page.years[0].key) == (str(sown), "")


def test_a_bed_that_sows_itself_bears_a_host_each_year(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden, origin="self_sown")
    cast.a_picking(garden, beds_of=[bed], picked_at=cast.moment(24 * 800))
    page = client.get(where(bed)).context["page"]
    assert page.answer.first.startswith("It came 3 years too early after the cabbage family of ")
    assert {str(cast.a_day(800).year), str(YEAR - 1)} <= {row.year for row in page.years}
    assert "A bed that sows itself" in client.get(where(bed)).content.decode()


def test_another_family_does_not_mind_cabbages(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden, plant="japanese_indigo")
    cast.a_year(bed, years_ago=1)
    assert client.get(where(bed)).context["page"].answer.first.startswith("It fits")


def test_a_correction_shows_what_it_said_before(client: Client, bed: Bed) -> None:
    row = cast.a_year(bed)
    client.post(url("past.change", key=bed.pk, row=row.pk), {"year": str(YEAR - 2), "crop": "rye", "family": "other"})
    html = client.get(where(bed)).content.decode()
    assert "crop kale" in html
    assert "Rye; not of the cabbage family" in html


def test_the_same_as_json(client: Client, bed: Bed) -> None:
    cast.a_year(bed)
    assert client.get(where(bed), {"as": "json"}).json()["years"][0]["year"] == str(YEAR - 2)


def test_more_years_need_no_more_statements(client: Client, bed: Bed) -> None:
    cast.a_year(bed, years_ago=1)
    flat(client, where(bed), lambda: [cast.a_year(bed, years_ago=k) for k in (3, 4, 5)])


def test_a_stranger_s_bed_and_no_bed_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(where(cast.a_bed(other_garden))).status_code == 404
    assert client.get(url("past.show", key=NOBODY)).status_code == 404


def test_only_reading(client: Client, bed: Bed) -> None:
    only(client, where(bed), "get")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, url("past.show", key=NOBODY))
