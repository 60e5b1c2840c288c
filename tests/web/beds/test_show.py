"""`/beds/<key>/`: one bed."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import outlooks
from bluewright.journal.models import Bed, Garden
from tests.cast import a_bed, a_bed_look, a_day, a_picking, a_rain, a_tub, a_year, moment
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.growing.conftest import a_grown_bed

pytestmark = pytest.mark.django_db


@pytest.fixture
def bed(garden: Garden) -> Bed:
    return a_bed(garden, name="East", area_m2=4.0, area_typed="4 m2", note="stony")


def where(bed: Bed) -> str:
    return url("beds.show", key=bed.pk)


def test_each_picking_is_told_with_its_mass_for_a_square_metre_and_its_tubs(client: Client, bed: Bed) -> None:
    """Own hand: 3 kg from 4 m2 are 0.75 kg from a square metre."""
    picking = a_picking(bed.garden, beds_of=[bed], picked_at=moment(24 * 9 + 5))
    tub = a_tub(bed.garden, leaf=[(picking, 3.0)])
    page = client.get(where(bed)).context["page"]
    assert page.facts == "woad, sown, 4 m2"
    assert page.regrowing == "Regrowing for 9 days."
    (row,) = page.taken
    assert (row.leaf, row.said) == ("3 kg", "young leaf, 0.75 kg from a square metre")
    assert [(link.key, link.said) for link in row.tubs] == [(str(tub.pk), "3 kg in Tub 9")]
    assert url("pickings.show", key=picking.pk) in client.get(where(bed)).content.decode()


def test_leaf_of_two_beds_is_shared_by_the_area_of_both(client: Client, bed: Bed) -> None:
    """Own hand: 3 kg from 4 + 2 m2 are 0.5 kg from a square metre."""
    other = a_bed(bed.garden, name="West", area_m2=2.0, area_typed="2 m2")
    a_picking(bed.garden, beds_of=[bed, other])
    (row,) = client.get(where(bed)).context["page"].taken
    assert row.said == "young leaf, together with West, 0.5 kg from a square metre"


def test_without_an_area_no_mass_for_a_square_metre_is_said(client: Client, bed: Bed) -> None:
    a_picking(bed.garden, beds_of=[bed, a_bed(bed.garden, name="West")])
    (row,) = client.get(where(bed)).context["page"].taken
    assert "square metre" not in row.said


def test_a_bed_that_was_never_picked_says_so(client: Client, bed: Bed) -> None:
    assert client.get(where(bed)).context["page"].regrowing == "Nothing taken yet."


def test_a_change_is_told_with_what_it_said_before(client: Client, bed: Bed) -> None:
    bed.name, bed.area_m2, bed.area_typed = "Far east", 3.7, "40 sq ft"
    keep(bed, by=None)
    (row,) = client.get(where(bed)).context["page"].history
    assert row.said == "Corrected. Before, it said: name East; area 4 m2."
    assert row.said in client.get(where(bed)).content.decode()


def test_as_json_it_is_the_same(client: Client, bed: Bed) -> None:
    assert client.get(where(bed), {"as": "json"}).json()["name"] == "East"


def test_there_is_no_bed_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("beds.show", key=NOBODY)).status_code == 404


def test_a_stranger_s_bed_is_not_shown(client: Client, other_garden: Garden) -> None:
    assert client.get(where(Bed.objects.get(garden=other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("beds.show", key=NOBODY))


def test_it_is_only_read(client: Client, bed: Bed) -> None:
    only(client, where(bed), "get")


def test_more_pickings_need_no_more_statements(client: Client, bed: Bed) -> None:
    def more() -> None:
        for _ in range(3):
            a_tub(bed.garden, leaf=[(a_picking(bed.garden, beds_of=[bed, a_bed(bed.garden)]), 1.0)])
            bed.note += "!"
            keep(bed, by=None)

    more()
    flat(client, where(bed), more)


def test_ground_and_sun_are_said_and_cabbages_before_it_too(client: Client, garden: Garden) -> None:
    bed = a_bed(garden, soil="loam", shade="half")
    assert client.get(where(bed)).context["page"].facts == "woad, sown, loam, sun half of the day"
    assert client.get(where(bed)).context["page"].glance.rows[-1].said == "nothing stands against it"
    a_year(bed, years_ago=1)
    before = client.get(where(bed)).context["page"].glance.rows[-1]
    assert before.said.startswith("Better wait 3 years more")
    assert before.said in client.get(where(bed)).content.decode()


def test_at_a_glance_it_tells_each_side_once_that_is_reckoned(client: Client, garden: Garden) -> None:
    bed = a_grown_bed(garden)
    a_bed_look(bed, counts="4 6 5 3 7 5", frame_m2=0.25, frame_typed="0.25 m2", spotted="0 0 10 5 0 0 1 0 20 0")
    page = client.get(where(bed)).context["page"]
    assert page.glance.waiting
    assert [row.said for row in page.glance.rows][:4] == ["not reckoned yet"] * 4
    outlooks.reckon(garden, today=a_day())
    page = client.get(where(bed)).context["page"]
    assert not page.glance.waiting
    told = {row.name: row.said for row in page.glance.rows}
    assert list(told) == ["Next cut", "Water", "Stand", "Damage", "Before"]
    assert "cut" in told["Next cut"]
    assert "water" in told["Water"].casefold()
    assert told["Stand"].startswith("About ")
    assert told["Damage"].startswith("Spotted: ")
    html = client.get(where(bed)).content.decode()
    for row in page.glance.rows:
        assert f'href="{row.href}"' in html


def test_what_it_wants_first_is_its_next_action(client: Client, garden: Garden) -> None:
    """Dry weather for weeks on sand: it wants water."""
    bed = a_grown_bed(garden)
    bed.soil = "sand"
    bed.save()
    for days_ago in range(60):
        a_rain(garden, 0.0, days_ago=days_ago)
    outlooks.reckon(garden, today=a_day())
    page = client.get(where(bed)).context["page"]
    assert page.glance.first is not None
    assert page.glance.first.what.startswith("Wall bed: ")
    assert page.glance.first.do.href in client.get(where(bed)).content.decode()
