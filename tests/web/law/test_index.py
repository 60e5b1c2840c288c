"""`/law/`: may it be grown here, and whom did one ask?"""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/law/"


def test_it_says_what_to_mind_and_never_what_the_law_is(client: Client, garden: Garden) -> None:
    html = client.get(WHERE).content.decode()
    assert "listed noxious weed in several western US states" in html
    assert "This program knows none: ask" in html
    assert "put no seed on the compost" in html
    assert "Nothing yet." in html


def test_a_check_is_told_with_its_day_and_with_whom_and_on_the_bed_s_page_too(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden)
    where = url("beds.show", key=bed.pk)
    assert client.get(where).context["page"].law.startswith("Nobody has written down yet")
    cast.a_law_check(garden, note="not listed here")
    (row,) = client.get(WHERE).context["page"].checks
    assert row.said.startswith("Woad: checked on ")
    assert row.said.endswith(" with the county's weed office: not listed here")
    page = client.get(where).context["page"]
    assert page.law.startswith("The law was checked on ")
    assert WHERE in client.get(where).content.decode()


def test_a_plant_that_does_not_spread_is_not_asked_after(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden, plant="japanese_indigo")
    assert client.get(url("beds.show", key=bed.pk)).context["page"].law == ""
    assert WHERE in client.get(url("beds.add")).content.decode(), "where a bed is begun it is asked of all"


def test_the_same_as_json(client: Client, garden: Garden) -> None:
    cast.a_law_check(garden)
    assert len(client.get(WHERE, {"as": "json"}).json()["checks"]) == 1


def test_another_garden_s_checks_stay_there(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.a_law_check(other_garden)
    assert client.get(WHERE).context["page"].checks == ()


def test_more_checks_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, WHERE, lambda: [cast.a_law_check(garden) for _ in range(3)])


def test_only_reading(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)
