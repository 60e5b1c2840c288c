"""A bed's pickings and looks as the science takes them."""

import pytest

from bluewright.journal.bridge.growing import disease_record, grown, growth_record, stand_record
from bluewright.journal.models import Bed, Garden, Picking
from tests import cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def bed(garden: Garden) -> Bed:
    garden.latitude_deg = 51.0
    garden.save()
    return cast.a_bed(garden, name="Wall bed", area_m2=20.0, area_typed="20 m2")


def picked(bed: Bed, days_ago: int, leaf_kg: float = 6.0, *, beside: Bed | None = None) -> None:
    beds = [bed] if beside is None else [bed, beside]
    cast.a_picking(bed.garden, beds_of=beds, picked_at=cast.moment(24 * days_ago), leaf_kg=leaf_kg)


def test_pickings_of_a_few_days_are_one_cut(bed: Bed) -> None:
    cast.a_bed_look(bed, days_ago=120, began="planted")
    for days_ago, leaf_kg in ((50, 4.0), (48, 3.0), (10, 5.0)):
        picked(bed, days_ago, leaf_kg)
    record = growth_record(bed, today=cast.a_day())
    assert record is not None
    assert (record.start, record.began, record.bed_m2) == ("planted", cast.a_day(120), 20.0)
    assert [(cut.on, cut.leaf_kg) for cut in record.cuts] == [(cast.a_day(50), 7.0), (cast.a_day(10), 5.0)]


def test_leaf_from_two_beds_is_parted_by_their_areas(garden: Garden, bed: Bed) -> None:
    """Own hand: 20 of 50 square metres, two fifths of 10 kg."""
    picked(bed, 10, 10.0, beside=cast.a_bed(garden, area_m2=30.0, area_typed="30 m2"))
    record = growth_record(bed, today=cast.a_day())
    assert record is not None
    assert [cut.leaf_kg for cut in record.cuts] == [4.0]


def test_leaf_from_beds_of_unknown_area_is_a_cut_without_a_mass(garden: Garden, bed: Bed) -> None:
    picked(bed, 10, 10.0, beside=cast.a_bed(garden))
    record = growth_record(bed, today=cast.a_day())
    assert record is not None
    assert [cut.leaf_kg for cut in record.cuts] == [None]


def test_a_long_rest_or_a_beginning_parts_the_seasons(bed: Bed) -> None:
    picked(bed, 400)
    picked(bed, 360)
    cast.a_bed_look(bed, days_ago=100, began="overwintered")
    picked(bed, 20)
    record = growth_record(bed, today=cast.a_day())
    assert record is not None
    assert [len(season.cuts) for season in record.earlier] == [2]
    assert (record.start, len(record.cuts)) == ("overwintered", 1)


def test_a_bed_that_rests_since_last_year_waits_for_its_beginning(bed: Bed) -> None:
    picked(bed, 320)
    assert growth_record(bed, today=cast.a_day()) is None


def test_the_air_that_was_written_down_goes_along(bed: Bed) -> None:
    picked(bed, 10)
    cast.an_air(bed.garden, hours_ago=30, temp_c=17.5)
    record = growth_record(bed, today=cast.a_day())
    assert record is not None
    assert len(record.weather.days) >= 1


def test_the_climate_table_of_the_garden_fills_what_was_not_read(bed: Bed) -> None:
    bed.garden.climate = [{"min_c": 1.0 + k, "max_c": 8.0 + k} for k in range(12)]
    bed.garden.save()
    picked(bed, 10)
    record = growth_record(bed, today=cast.a_day())
    assert record is not None
    assert [month.max_c for month in record.weather.normals] == [8.0 + k for k in range(12)]


def test_lists_of_a_look_become_counts_and_percents(bed: Bed) -> None:
    row = cast.a_bed_look(
        bed, counts="4 0 7", frame_m2=0.25, frame_typed="0.25 m2", bolting=2, spotted="0 0.5", cause="slugs"
    )
    stand, damage = stand_record(row), disease_record(row)
    assert stand is not None
    assert (stand.counts, stand.bolting, stand.origin, stand.bed_m2) == ((4, 0, 7), 2, bed.origin, 20.0)
    assert damage is not None
    assert (damage.spotted_pct, damage.eaten_pct, damage.cause) == ((0.0, 0.5), (), "slugs")
    bare = cast.a_bed_look(bed, began="sown")
    assert (stand_record(bare), disease_record(bare)) == (None, None)


def test_how_a_cut_was_timed_goes_along_and_teaches(bed: Bed) -> None:
    """A cut judged late at the same warmth moves the next one forward."""
    cast.a_bed_look(bed, days_ago=120, began="planted")
    for days_ago, timing in ((60, "late"), (20, "late")):
        cast.a_picking(
            bed.garden, beds_of=[bed], picked_at=cast.moment(24 * days_ago), leaf_kg=5.0, timing=timing
        )  # fmt: skip
    picked(bed, 18)
    late = growth_record(bed, today=cast.a_day())
    assert late is not None
    assert [cut.state for cut in late.cuts] == ["late", "late"], "a second day of the same cut keeps the judgement"
    Picking.objects.update(timing="early")
    early = growth_record(bed, today=cast.a_day())
    assert early is not None
    assert grown(late).ripe_degree_d.p50 < grown(early).ripe_degree_d.p50
