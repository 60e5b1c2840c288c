"""One verb, one transaction: all of it is written or nothing."""

from datetime import timedelta

import pytest
from django.db import IntegrityError

from bluewright.journal.actions import beds, keeping, steeps
from bluewright.journal.models import AirTemp, Bed, Change, Garden, PickedFrom, Picking, Steep, SteepLeaf
from bluewright.science.base.errors import InputError
from tests import small_garden
from tests.cast import a_batch, a_bed, a_look, a_picking, a_tub, an_air, moment

pytestmark = pytest.mark.django_db


def test_a_picking_is_not_written_when_one_of_its_beds_cannot_be(garden: Garden) -> None:
    bed = a_bed(garden)
    picking = Picking(garden=garden, picked_at=moment(1), plant="woad", leaf_kg=2.0, leaf_typed="2 kg")
    with pytest.raises(IntegrityError):
        beds.add_picking(picking, beds=[bed, bed], by=None)
    assert not Picking.objects.filter(pk=picking.pk).exists()
    assert not PickedFrom.objects.filter(bed=bed).exists()


def test_a_tub_is_not_written_when_its_leaf_cannot_be(garden: Garden) -> None:
    picking = a_picking(garden)
    part = steeps.LeafIn(picking=picking, leaf_kg=1.0, leaf_typed="1 kg")
    tub = Steep(garden=garden, name="T", plant="woad", started_at=moment(1), water_l=20.0, water_typed="20 L")
    with pytest.raises(IntegrityError):
        steeps.begin_steep(tub, leaf=[part, part], by=None)
    assert not Steep.objects.filter(pk=tub.pk).exists()
    assert not SteepLeaf.objects.filter(picking=picking).exists()


def test_a_change_is_not_logged_when_the_row_cannot_be_saved(garden: Garden) -> None:
    bed = a_bed(garden)
    bed.name = None  # type: ignore[assignment]
    with pytest.raises(IntegrityError):
        beds.add_bed(bed, by=None)
    assert not Change.objects.filter(row_id=bed.pk).exists()


def test_weather_is_written_whole_or_not_at_all(garden: Garden) -> None:
    known = AirTemp.objects.count()
    good = AirTemp(garden=garden, time=moment(3), temp_c=15.0, temp_typed="15 C")
    bad = AirTemp(garden=garden, time=moment(2), temp_c=None, temp_typed="?")
    with pytest.raises(IntegrityError):
        beds.add_air([good, bad], by=None)
    assert AirTemp.objects.count() == known


def test_what_was_forecast_gives_way_to_what_was_read(garden: Garden) -> None:
    forecast = an_air(garden, hours_ago=3, temp_c=20.0, forecast=True)
    read = AirTemp(garden=garden, time=forecast.time, temp_c=17.0, temp_typed="17 C")
    beds.add_air([read], by=None)
    assert list(AirTemp.objects.filter(garden=garden, time=forecast.time)) == [read]


def test_a_corrected_reading_of_the_air_counts_once_and_the_old_one_can_be_found(garden: Garden) -> None:
    wrong = an_air(garden, hours_ago=3, temp_c=71.0)
    right = AirTemp(garden=garden, time=wrong.time, temp_c=17.0, temp_typed="17 C")
    beds.add_air([right], by=None)
    assert list(AirTemp.objects.filter(garden=garden, time=wrong.time)) == [right]
    gone = AirTemp.everything.get(pk=wrong.pk)
    assert gone.deleted_at is not None
    assert gone.deleted_at - right.made_at < timedelta(minutes=1)
    assert Change.objects.get(row_id=wrong.pk).before["temp_c"] == 71.0


def test_one_garden_s_weather_leaves_the_other_s_alone(garden: Garden, other_garden: Garden) -> None:
    ours = an_air(garden, hours_ago=3)
    theirs = AirTemp(garden=other_garden, time=ours.time, temp_c=9.0, temp_typed="9 C")
    beds.add_air([theirs], by=None)
    assert AirTemp.objects.filter(pk=ours.pk).exists()


def test_the_invented_garden_is_planted_whole_and_marked(garden: Garden) -> None:
    assert garden.invented
    assert garden.name == small_garden.NAME
    assert set(garden.beds.values_list("name", flat=True)) == {"Long bed", "Under the hedge"}
    assert garden.pickings.count() == 2
    done, going = garden.steeps.order_by("started_at")
    assert done.strains.count() == 1
    assert going.strains.count() == 0
    assert going.readings.count() >= 4
    assert timedelta(hours=44) < moment() - going.started_at < timedelta(hours=48)
    assert not going.readings.filter(taken_at__gt=moment()).exists()
    assert garden.air_temps.filter(forecast=True, time__gt=moment()).exists()
    assert garden.air_temps.filter(forecast=False).exists()


@pytest.mark.django_db
def test_the_invented_garden_is_planted_whole_or_not_at_all(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*args: object, **options: object) -> None:
        raise RuntimeError("in the middle")

    monkeypatch.setattr(steeps, "strain", broken)
    with pytest.raises(RuntimeError, match="in the middle"):
        small_garden.plant(now=moment(), by=None)
    assert not Garden.everything.exists()
    assert not Bed.everything.exists()
    assert not AirTemp.everything.exists()


def test_a_look_is_written_as_typed_beside_its_value(steeping: Steep) -> None:
    look = a_look(steeping, temp_c=17.8, temp_typed="64 F")
    look.refresh_from_db()
    assert (look.temp_typed, look.temp_c) == ("64 F", 17.8)


def test_a_picking_is_corrected_whole_or_not_at_all(garden: Garden) -> None:
    bed = a_bed(garden)
    picking = a_picking(garden, beds_of=[bed])
    picking.age = "old"
    with pytest.raises(IntegrityError):
        beds.change_picking(picking, beds=[twice := a_bed(garden), twice], by=None)
    assert Picking.objects.get(pk=picking.pk).age == "young"
    assert [source.bed for source in picking.sources.all()] == [bed]
    assert not Change.objects.filter(row_id=picking.pk).exists()


def test_a_tub_that_was_taken_out_hinders_no_correction_of_its_leaf(garden: Garden) -> None:
    picking = a_picking(garden)
    keeping.delete(a_tub(garden, leaf=[(picking, 3.0)]), by=None)
    picking.plant = "indigofera"
    beds.change_picking(picking, beds=[], by=None)
    assert Picking.objects.get(pk=picking.pk).plant == "indigofera"


def test_a_tub_and_its_straining_stay_while_a_batch_holds_their_liquor(strained: Steep) -> None:
    straining = strained.strains.get()
    batch = a_batch(straining)
    for remove, row in ((steeps.delete_steep, strained), (steeps.delete_strain, straining)):
        with pytest.raises(InputError, match="its liquor is in Batch 9"):
            remove(row, by=None)
    keeping.delete(batch, by=None)
    steeps.delete_strain(straining, by=None)
    assert not strained.strains.exists()
