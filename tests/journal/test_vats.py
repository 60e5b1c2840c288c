"""A vat's rows become its record: powder by its jar, cloth as it hangs, what was noted up to a moment."""

from datetime import timedelta
from importlib import import_module

import pytest
from django.apps import apps
from django.db import connection
from django.utils import timezone

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import vats
from bluewright.journal.models import Change, Garden, Steep, Vat, VatPoured
from bluewright.journal.queries import vats as queries
from bluewright.science.media.cloth import REGAIN_FRAC
from bluewright.science.media.purity import Known
from tests.cast import (
    a_dip,
    a_jar_from_the_bed,
    a_made_vat,
    a_piece,
    a_vat,
    a_vat_addition,
    a_vat_poured,
    a_vat_reading,
    an_alkali,
    an_alkali_part,
    moment,
    taken,
)

pytestmark = pytest.mark.django_db


def whole(vat: Vat) -> Vat:
    found = queries.vat(vat.pk, of=vat.garden)
    assert found is not None
    return found


def test_powder_out_of_a_jar_is_as_pure_as_the_jar(garden: Garden) -> None:
    jar = a_jar_from_the_bed(garden, 80.0, purity_frac=0.31, purity_sd_frac=0.03)
    vat = a_vat(garden)
    a_vat_addition(vat, mass_g=20.0, taken=taken(jar, 20.0))
    a_vat_addition(vat, mass_g=5.0)
    record = vats.vat_record(whole(vat), now=timezone.now())
    assert [one.purity for one in record.additions] == [Known(mean_frac=0.31, sd_frac=0.03), None]


def test_dry_cloth_counts_as_it_hangs_in_a_room(garden: Garden) -> None:
    vat = a_vat(garden)
    a_dip(a_piece(garden, basis="dry", mass_g=500.0), vat)
    found = vats.vat_record(whole(vat), now=timezone.now()).dips[0]
    assert found.cloth_kg == pytest.approx(0.5 * (1 + REGAIN_FRAC["wool"].value))


def test_a_vat_that_was_ended_stays_as_it_stood_then(garden: Garden) -> None:
    vat = a_made_vat(garden)
    a_vat_reading(vat, hours_ago=1, ph=8.0)
    vat.ended_at, vat.end = moment(1.5), "recovered"
    record = vats.vat_record(whole(keep(vat, by=None)), now=timezone.now())
    assert record.now == moment(1.5)
    assert [one.ph for one in record.readings] == [9.4]


def test_an_answer_costs_nothing_twice_and_a_look_makes_it_new(garden: Garden) -> None:
    vat, now = a_made_vat(garden), timezone.now()
    first = vats.vat_answer(whole(vat), now)
    assert vats.vat_answer(whole(vat), now + timedelta(minutes=3)) is first
    assert vats.kept_answer(whole(vat), now + timedelta(hours=3)) is first
    a_vat_reading(vat, hours_ago=1, liquor_look=0, film=0, strip_s=2.0)
    assert vats.kept_answer(whole(vat), now) is None
    assert vats.vat_answer(whole(vat), now).active_g_per_l.p50 < first.active_g_per_l.p50


def test_what_nobody_measured_is_as_its_plant_and_making_usually_give(garden: Garden) -> None:
    """Limed woad that nobody assayed is not taken for washed indigo."""
    jar = a_jar_from_the_bed(garden, 80.0)
    vat = a_vat(garden)
    a_vat_addition(vat, mass_g=20.0, taken=taken(jar, 20.0))
    known = vats.vat_record(whole(vat), now=timezone.now()).additions[0]
    assert (known.purity, known.plant, known.make) == (None, "woad", "unknown")
    batch = jar.came_from.get().batch
    an_alkali_part(batch, an_alkali(garden, kind="slaked_lime"), hours_ago=1.0)
    Steep.objects.filter(pk=batch.came_from.get().strain.steep_id).update(plant="japanese_indigo")
    known = vats.vat_record(whole(vat), now=timezone.now()).additions[0]
    assert (known.plant, known.make) == ("japanese_indigo", "limed")


def test_a_heel_and_water_count_from_when_they_were_poured(garden: Garden) -> None:
    vat = a_vat(garden, heel_g=1.0)
    a_vat_poured(vat, hours_ago=3)
    source = a_vat(garden, name="Vat 3", ended_at=moment(2), end="kept_on")
    a_vat_poured(vat, hours_ago=2, source=source, pure_g=4.0, pure_sd_g=0.5, reduced_frac=0.25, ph=9.1)
    found = vats.vat_record(whole(vat), now=timezone.now())
    assert [(one.time, one.volume_l, one.pure_g) for one in found.poured] == [
        (moment(3), 5.0, 0.0),
        (moment(2), 5.0, 4.0),
    ]
    assert vats.vat_answer(whole(vat), timezone.now()).volume_l == 50.0
    assert vats.vat_record(whole(vat), now=moment(2.5)).poured == found.poured[:1]


def test_heels_of_earlier_programs_become_rows_of_their_own(garden: Garden) -> None:
    """They stood in the vat's own heel, and beside the change that made it so."""
    source = a_vat(garden, name="Vat 3", ended_at=moment(2), end="kept_on")
    into = a_vat(garden, heel_g=10.0, heel_sd_g=1.3)
    noted = {"heel_from": str(source.pk), "heel_added_g": 8.0, "heel_added_sd_g": 1.2}
    change = Change.objects.create(
        kind="vat", row_id=into.pk, verb="change", before={"heel_g": 2.0} | noted, at=timezone.now()
    )
    step = import_module("bluewright.journal.migrations.0036_poured_into_vats")
    step.heels_by_themselves(apps, connection.schema_editor())
    row = VatPoured.objects.get()
    assert (row.vat_id, row.source_id, row.poured_at, row.pure_g, row.pure_sd_g) == (
        into.pk, source.pk, moment(2), 8.0, 1.2,
    )  # fmt: skip
    back = Vat.objects.get(pk=into.pk)
    assert (back.heel_g, back.heel_sd_g) == (pytest.approx(2.0), pytest.approx(0.5))
    assert Change.objects.get(pk=change.pk).before == {"heel_g": 2.0}


def test_the_strength_of_a_vat_is_told_for_now_and_for_a_dip_before(garden: Garden) -> None:
    vat, now = whole(a_made_vat(garden)), timezone.now()
    assert vats.active(vat, now) == vats.vat_answer(vat, now).active_g_per_l
    assert vats.active(vat, now, at=moment(29.9)).p50 < vats.active(vat, now).p50
