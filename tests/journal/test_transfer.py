"""A whole garden out into a file and in again."""

import json
from typing import Any

import pytest
from django.contrib.auth import get_user_model

from bluewright.journal import transfer
from bluewright.journal.actions.keeping import delete
from bluewright.journal.bridge import scheduling
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import Bed, Garden, Jar, JarTaken, PlanBasis, Reading, Steep, Swatch
from bluewright.journal.queries import tubs
from bluewright.science.base.errors import InputError
from tests import cast
from tests.cast import a_bed, moment

pytestmark = pytest.mark.django_db


def owner() -> Any:
    return get_user_model().objects.get_or_create(username="owner")[0]


def out(garden: Garden) -> dict[str, Any]:
    whole: dict[str, Any] = json.loads(transfer.take_out(garden))
    return whole


def gone(garden: Garden) -> None:
    """The garden is not here any more, as in another installation."""
    for kind in reversed(list(transfer.KINDS.values())):
        getattr(kind[0], "everything", kind[0].objects).all().delete()
    Garden.everything.filter(pk=garden.pk).delete()


def brought(whole: dict[str, Any]) -> Garden:
    return transfer.bring_in(json.dumps(whole), by=owner())


def test_what_comes_in_is_what_went_out(garden: Garden) -> None:
    before = out(garden)
    gone(garden)
    assert out(brought(before)) == before


def test_a_batch_goes_along_from_its_straining_to_its_jar(garden: Garden, strained: Steep) -> None:
    """One row of every kind comes in as it went out; what belongs to a row that was taken out stays behind."""
    strain, soda = strained.strains.get(), cast.an_alkali(garden)
    upstream = cast.a_batch(strain, liquor_l=[19.0])
    batch = cast.a_batch(upstream)
    cast.a_liquor_look(batch, ph=6.0, temp_c=17.0)
    cast.a_jar_test(batch, soda, (2.0, 8.1), (1.0, 9.4))
    cast.an_alkali_part(batch, soda)
    cast.an_airing(batch)
    cast.a_standing(batch, edges=[(0.1, 220.0)])
    cast.a_drying(batch, (50, 160.0))
    jar = cast.a_jar((batch, 12.0))
    cast.taken(jar, 3.0)
    cast.keep(JarTaken(jar=jar, taken_at=cast.moment(), taken_g=-0.2, weighed_g=9.2, weighed_typed="9.2 g"), by=None)
    cast.an_assay(jar)
    cast.a_registration(cast.a_card(garden))
    cast.a_swatch(garden, jar=Jar.objects.get())
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    cast.a_dip(piece, vat)
    cast.a_vat_poured(vat, source=cast.a_vat(garden, name="Vat 3"), pure_g=2.0)
    cast.a_home_test(piece)
    cast.a_ladder_dip(cast.a_done_ladder(garden, vat=vat))
    cast.a_trial(garden, open_lots=1)
    cast.a_rain(garden, 4.0)
    cast.a_water_note(cast.a_bed(garden), water_l=100.0, water_typed="100 L")
    cast.a_want(garden)
    cast.a_work_note(garden)
    cast.a_kit_item(garden)
    cast.a_supply(garden)
    cast.keep(PlanBasis(garden=garden), by=None)
    bed = cast.a_bed(garden, shade="half")
    cast.a_bed_look(bed)
    cast.a_law_check(garden)
    cast.left_out(cast.a_tub(garden))
    cast.others_taught(garden)
    cast.a_year(bed, clubroot=True)
    cast.some_limits(garden)
    cast.days_away(garden)
    scheduling.reckon(garden, by=None, quick=True)
    before = out(garden)
    bare = [kind for kind in transfer.KINDS if not before[kind]]
    assert bare == ["intakes", "station_days", "calls_seen", "yields_seen"]
    gone(garden)
    assert out(brought(before)) == before

    delete(batch, by=None)
    after = out(garden)
    assert str(batch.pk) not in json.dumps(after)
    assert (len(after["batches"]), after["jar_tests"], after["jar_steps"], after["weighings"]) == (1, [], [], [])


def test_a_swatch_goes_along_without_a_jar_that_was_taken_out(garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    cast.a_swatch(garden, jar=jar)
    delete(jar, by=None)
    (plain,) = out(garden)["swatches"]
    assert (plain["name"], plain["jar_id"]) == ("Swatch 9", None)
    assert Swatch.objects.get().jar == jar, "in its own garden it still knows"


def test_the_forecast_of_a_tub_that_came_in_rests_on_the_same_record(garden: Garden, steeping: Steep) -> None:
    now = moment()
    record = steep_record(tubs.tub(steeping.pk, of=garden), air=tubs.air(garden, around=steeping), now=now)  # type: ignore[arg-type]
    whole = out(garden)
    gone(garden)
    again = brought(whole)
    tub = tubs.tub(steeping.pk, of=again)
    assert tub is not None
    assert steep_record(tub, air=tubs.air(again, around=tub), now=now) == record


def test_what_was_taken_out_of_sight_stays_behind(garden: Garden, steeping: Steep) -> None:
    look = steeping.readings.first()
    delete(look, by=None)
    assert str(look.pk) not in json.dumps(out(garden))
    delete(steeping, by=None)
    assert str(steeping.pk) not in json.dumps(out(garden))


def test_a_bed_that_was_taken_out_goes_along_as_taken_out_while_pickings_name_it(garden: Garden) -> None:
    named, unnamed = Bed.objects.get(garden=garden, name="Long bed"), a_bed(garden)
    delete(named, by=None)
    delete(unnamed, by=None)
    whole = out(garden)
    gone(garden)
    again = brought(whole)
    assert not Bed.objects.filter(garden=again, name="Long bed").exists()
    assert [bed.pk for bed in Bed.everything.filter(garden=again, deleted_at__isnull=False)] == [named.pk]
    assert out(again) == whole


def test_a_garden_does_not_come_in_twice(garden: Garden) -> None:
    with pytest.raises(InputError, match="is here already"):
        brought(out(garden))


def spoil(whole: dict[str, Any], how: str) -> dict[str, Any]:
    if how == "another format":
        whole["format"] = "something else"
    if how == "a newer version":
        whole["version"] = 99
    if how == "a strange column":
        whole["readings"][1]["luck"] = 3
    if how == "a wrong value":
        whole["readings"][1]["ph"] = "sour"
    if how == "a level that is none":
        whole["steeps"][0]["method"] = "lukewarm"
    if how == "a tub that is not there":
        whole["readings"][1]["steep_id"] = "00000000-0000-4000-8000-000000000000"
    if how == "no list":
        whole["readings"] = {"a": 1}
    return whole


@pytest.mark.parametrize(
    ("how", "says"),
    [
        ("another format", "not a garden of Bluewright"),
        ("a newer version", "version 99"),
        ("a strange column", r"readings\[1\]\.luck: there is no such column"),
        ("a wrong value", r"readings\[1\]\.ph: .*sour"),
        ("a level that is none", r"steeps\[0\]\.method: .*lukewarm"),
        ("a tub that is not there", r"readings\[1\]\.steep"),
        ("no list", "readings: it is not a list"),
    ],
)
def test_a_file_that_does_not_fit_is_refused_and_nothing_is_written(garden: Garden, how: str, says: str) -> None:
    whole = spoil(out(garden), how)
    gone(garden)
    with pytest.raises(InputError, match=says):
        brought(whole)
    assert not Garden.everything.filter(pk=garden.pk).exists()
    assert not Reading.everything.exists()


@pytest.mark.parametrize("text", ["", "{", "[]", "null", '"garden"', "\xff"])
def test_what_is_no_garden_at_all_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="file"):
        transfer.bring_in(text, by=owner())


@pytest.mark.parametrize(
    ("column", "value"),
    [("indigo_frac", 7.0), ("indigo_sd_frac", -1.0), ("method", "tasting"), ("record", [1]), ("typed", {"ash": 3})],
)
def test_an_assay_that_the_journal_could_not_have_written_is_refused(garden: Garden, column: str, value: Any) -> None:
    cast.an_assay(cast.a_jar_from_the_bed(garden, 12.0))
    whole = out(garden)
    whole["assays"][0][column] = value
    gone(garden)
    with pytest.raises(InputError, match=rf"assays\[0\]\.{column}"):
        brought(whole)
