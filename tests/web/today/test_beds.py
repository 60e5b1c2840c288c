"""What beds want today: from outlooks that are reckoned beside the pages."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.bridge import outlooks
from bluewright.journal.bridge.growing import growth_of
from bluewright.journal.models import Bed, Garden
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.science.media.weather.record import DayBand
from bluewright.web.pages.today import beds
from tests import cast
from tests.web.checks import flat, url
from tests.web.growing.conftest import a_grown_bed

pytestmark = pytest.mark.django_db
TODAY = cast.a_day()


@pytest.fixture
def bed(garden: Garden) -> Bed:
    return a_grown_bed(garden)


def days(around: int) -> DayBand:
    middle = TODAY + timedelta(days=around)
    return DayBand(early=middle - timedelta(days=2), middle=middle, late=middle + timedelta(days=2))


@pytest.fixture
def answer(bed: Bed) -> GrowthAnswer:
    found = growth_of(bed, today=TODAY)
    assert found is not None
    return replace(found, in_season_chance=0.9, frost_on=None, bolting_chance=None, pods_black_on=None)


def said(bed: Bed, answer: GrowthAnswer, *, today: date = TODAY) -> str:
    found = beds.cut(bed, answer, today)
    return "" if found is None else found.what


def test_a_window_is_told_of_as_it_nears_opens_closes_and_is_past(bed: Bed, answer: GrowthAnswer) -> None:
    def window(opens: int, shuts: int) -> str:
        return said(bed, replace(answer, ready_on=days(opens), past_on=days(shuts)))

    assert window(8, 30) == ""
    assert window(5, 25).startswith("Wall bed: its next cut is ready about ")
    assert window(0, 20) == "Wall bed is ready to cut"
    assert window(-20, 2).startswith("Wall bed: cut it now; it is past its best from about ")
    assert window(-30, -1).startswith("Wall bed: past its best since about ")


def test_the_closing_of_a_window_is_more_urgent_than_its_being_open(bed: Bed, answer: GrowthAnswer) -> None:
    urgencies = []
    for opens, shuts in ((-20, 2), (-5, 15), (3, 23)):
        found = beds.cut(bed, replace(answer, ready_on=days(opens), past_on=days(shuts)), TODAY)
        assert found is not None
        assert ") of leaf; past it from about" in found.why
        urgencies.append(found.urgency_h)
    assert urgencies == sorted(urgencies)
    assert urgencies[0] < urgencies[1] < 24.0 < urgencies[2]


def test_frost_goes_first_and_a_season_that_is_over_wants_nothing(bed: Bed, answer: GrowthAnswer) -> None:
    frosty = replace(answer, ready_on=days(30), past_on=days(60), frost_on=days(3))
    assert said(bed, frosty).startswith("Wall bed: frost may come on ")
    assert said(bed, replace(frosty, frost_on=days(20))) == ""
    assert said(bed, replace(frosty, in_season_chance=0.05)) == ""
    assert said(bed, replace(answer, ready_on=DayBand(early=None, middle=None, late=None))) == ""


def test_stems_are_to_be_cut_before_pods_blacken(bed: Bed, answer: GrowthAnswer) -> None:
    flowering = replace(answer, bolting_chance=0.8, pods_black_on=days(10))
    found = beds.pods(bed, flowering, TODAY)
    assert found is not None
    assert "cut the flower stems before" in found.what
    assert found.urgency_h == 8 * 24.0, "the early day of the range, two days before its middle"
    for other in (replace(flowering, bolting_chance=0.2), replace(flowering, pods_black_on=days(30)),
                  replace(flowering, pods_black_on=days(-20)), answer):  # fmt: skip
        assert beds.pods(bed, other, TODAY) is None


def matters(client: Client, bed: Bed) -> list[str]:
    page = client.get("/").context["page"]
    return [matter.what for matter in (*page.matters, *page.later) if matter.key == str(bed.pk)]


def test_today_shows_what_was_reckoned_and_waits_for_nothing(client: Client, garden: Garden, bed: Bed) -> None:
    """Dry weather for weeks on sand: it wants water."""
    bed.soil = "sand"
    bed.save()
    for days_ago in range(60):
        cast.a_rain(garden, 0.0, days_ago=days_ago)
    assert matters(client, bed) == [], "nothing is reckoned while a page is made"
    outlooks.reckon(garden, today=TODAY)
    (water,) = [what for what in matters(client, bed) if "water" in what]
    assert water.startswith("Wall bed: water it with ")
    assert " L" in water
    assert url("watering.show", key=bed.pk) in client.get("/").content.decode()


def test_what_was_written_since_silences_the_old_outlook(client: Client, garden: Garden, bed: Bed) -> None:
    outlooks.reckon(garden, today=TODAY)
    key = {bed.pk}
    assert outlooks.kept(garden, today=TODAY).known.keys() >= key
    assert not outlooks.kept(garden, today=TODAY).missing
    cast.a_rain(garden, 12.0)
    kept = outlooks.kept(garden, today=TODAY)
    assert kept.known.keys() >= key, "the weather moves days by little: the old one stands until the new is there"
    assert kept.missing >= key
    assert outlooks.kept(garden, today=TODAY + timedelta(days=1)).missing >= key, "another day"
    assert not outlooks.kept(garden, today=TODAY + timedelta(days=5)).known
    cast.a_picking(garden, beds_of=[bed], picked_at=cast.moment(1))
    assert bed.pk not in outlooks.kept(garden, today=TODAY).known
    outlooks.reckon(garden, today=TODAY)
    look = cast.a_bed_look(bed)
    assert bed.pk not in outlooks.kept(garden, today=TODAY).known
    outlooks.reckon(garden, today=TODAY)
    delete(look, by=None)
    assert bed.pk not in outlooks.kept(garden, today=TODAY).known


def test_more_beds_need_no_more_statements(client: Client, garden: Garden, bed: Bed) -> None:
    outlooks.reckon(garden, today=TODAY)
    flat(client, "/", lambda: [cast.a_bed(garden, name=f"Bed {k}") for k in range(3)])


def test_a_bed_whose_records_cannot_be_reckoned_is_passed_over(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden, name="Nowhere")
    outlooks.reckon(garden, today=TODAY)
    assert outlooks.kept(garden, today=TODAY).known[bed.pk].growth is None
    assert client.get("/").status_code == 200


def test_a_picking_begins_from_its_bed(client: Client, garden: Garden, bed: Bed) -> None:
    form = client.get(f"{url('pickings.add')}?bed={bed.pk}").context["form"]
    assert (form["beds"].value(), form["plant"].value()) == ([str(bed.pk)], "woad")
    assert client.get(f"{url('pickings.add')}?bed=none").status_code == 200
