"""`/growing/<bed>/`: when is this bed's next cut?"""

import re

import pytest
from django.test import Client

from bluewright.journal.bridge.growing import growth_record
from bluewright.journal.models import Bed, Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(bed: Bed) -> str:
    return url("growing.show", key=bed.pk)


def test_it_tells_the_next_cut_with_its_chart_leaf_and_blue(client: Client, bed: Bed) -> None:
    response = client.get(where(bed))
    page = response.context["page"]
    assert page.answer.first.startswith("The next cut is ")
    assert any("from the bed" in line for line in page.answer.lines)
    assert "2 cuts of yours" in " ".join(page.answer.lines)
    assert "When is the next cut of Wall bed ready?" in page.answer.chart
    assert page.answer.why is not None
    assert response.content.decode().count('role="img"') == 2, "the forecast, and drawn leaves to compare with"


def test_counts_and_scores_are_told_with_their_day(client: Client, bed: Bed) -> None:
    cast.a_bed_look(bed, days_ago=3, counts="4 6 5 3 7 5", frame_m2=0.25, frame_typed="0.25 m2")
    cast.a_bed_look(bed, days_ago=1, spotted="0 0 5 20 0 0 1 2 0 0", eaten="0 0 0 0 0 0 10 0 0 0")
    page = client.get(where(bed)).context["page"]
    assert re.match(r"About (19|20) plants/m²", page.stand.first), "30 plants in 1.5 square metres"
    assert page.damage.first.startswith("Spotted: ")
    assert "<svg" in page.damage.chart
    assert [row.said.split(":")[0] for row in page.looks][:2] == ["Spotted, %", "Plants in frames of 0.25 m2"]


def test_it_says_what_must_be_known_first(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden)
    assert "Where does the garden lie?" in client.get(where(bed)).content.decode()
    garden.latitude_deg = 51.0
    garden.save()
    assert "When did this season begin?" in client.get(where(bed)).content.decode()


def test_a_bed_that_was_only_picked_is_foretold_from_its_pickings(client: Client, garden: Garden) -> None:
    garden.latitude_deg = 51.0
    garden.save()
    bed = cast.a_bed(garden)
    cast.a_picking(garden, beds_of=[bed], picked_at=cast.moment(24 * 10))
    page = client.get(where(bed)).context["page"]
    assert page.answer.first
    assert "learns yours" in " ".join(page.answer.lines)


def test_a_us_garden_reads_pounds_on_a_square_foot(client: Client, bed: Bed) -> None:
    bed.garden.system = "us"
    bed.garden.save()
    text = " ".join(client.get(where(bed)).context["page"].answer.lines)
    assert re.search(r"lb/sq ft.* from the bed", text)
    assert "kg" not in text


def test_the_same_as_json(client: Client, bed: Bed) -> None:
    twin = client.get(where(bed), {"as": "json"}).json()
    assert twin["name"] == "Wall bed"
    assert twin["answer"]["first"].startswith("The next cut is ")


def test_more_looks_and_pickings_need_no_more_statements(client: Client, garden: Garden, bed: Bed) -> None:
    def more() -> None:
        cast.a_bed_look(bed, days_ago=2, spotted="0 1 2")
        cast.a_picking(garden, beds_of=[bed], picked_at=cast.moment(24 * 3))

    flat(client, where(bed), more)


def test_a_stranger_s_bed_and_no_bed_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(where(cast.a_bed(other_garden))).status_code == 404
    assert client.get(url("growing.show", key=NOBODY)).status_code == 404


def test_only_reading(client: Client, bed: Bed) -> None:
    only(client, where(bed), "get")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, url("growing.show", key=NOBODY))


def test_looks_of_a_season_add_up_and_the_next_cut_says_what_its_spots_cost(client: Client, bed: Bed) -> None:
    """Own hand: 0, 5, 20 and 40 % a week apart are 315 %-days."""
    for days_ago, scores in ((24, "0 0"), (17, "5 5"), (10, "10 30"), (3, "40 40")):
        cast.a_bed_look(bed, days_ago=days_ago, spotted=scores)
    page = client.get(where(bed)).context["page"]
    assert len(page.over_season) == 1
    assert page.over_season[0].startswith("Spotted leaf summed over 4 looks since ")
    assert page.over_season[0].endswith(": 315 %-days.")
    assert page.over_season[0] in client.get(where(bed)).content.decode()
    assert any("of pure blue" in line for line in page.damage.lines), "in grams, of the leaf of the next cut"
    record = growth_record(bed, today=cast.a_day())
    assert record is not None
    assert record.spotted_frac == 0.4
