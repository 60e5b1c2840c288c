"""`/jarlooks/<kind>/<key>/photo/<photo>/`: boxes on the jars, kept with what a forecast reads of them."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.bridge.batches import air_record
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import Garden, JarLook, LiquorLook, Measured, Reading, Steep
from bluewright.journal.queries import batches, tubs
from tests.cast import moment, typed
from tests.known_photos import BROWN_LIQUOR
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url
from tests.web.measuring import a_jar_look, a_jar_photo, jar_typed
from tests.web.working import a_working_batch, an_aired_batch

pytestmark = pytest.mark.django_db

PER_CM = 0.283 * 5 / 7
"""Own hand: D = 0.283 in 7 cm of one part in five."""


def where(of: object, kind: str, photo: object) -> str:
    return url("jarlooks.draw", kind=kind, key=of.pk, photo=photo.pk)  # type: ignore[attr-defined]


def test_a_jar_of_a_tub_is_read_by_the_strain_call(client: Client, garden: Garden, steeping: Steep) -> None:
    look = a_jar_look(client, garden, of=steeping, kind="tub")
    assert look.measured.roles == ["jar", "water"]
    assert (look.after_min, look.path_cm, look.path_typed, look.dilution_factor) == (
        20.0,
        pytest.approx(7.0),
        "7 cm",
        5.0,
    )
    assert look.reading is not None
    assert look.reading.dye_index == pytest.approx(PER_CM, abs=0.02)
    assert 0.003 < (look.reading.dye_index_sd or 0) < 0.02
    record = steep_record(tubs.tub(steeping.pk, of=garden), air=[], now=timezone.now())
    assert record.readings[-1].dye_index == look.reading.dye_index


def test_a_jar_of_a_batch_is_read_by_the_airing_where_it_stood_then(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    look = a_jar_look(client, garden, of=batch, kind="batch", aired_pours="20", aired_min="10")
    assert look.liquor_look is not None
    assert (look.liquor_look.after_pours, look.liquor_look.after_min) == (20, 10.0)
    record = air_record(batches.batch(batch.pk, of=garden), indigo_g=None)
    assert [r.dye_index for r in record.readings if r.dye_index is not None] == [look.liquor_look.dye_index]


def test_before_the_alkali_and_on_request_nothing_is_read(client: Client, garden: Garden, steeping: Steep) -> None:
    before = a_jar_look(client, garden, of=steeping, kind="tub", light=BROWN_LIQUOR, after_min="0")
    unread = a_jar_look(client, garden, of=steeping, kind="tub", seed=2, to_forecast="")
    assert before.reading is unread.reading is None


def test_the_width_of_the_jar_is_remembered_and_minutes_count_from_the_first_alkali(
    client: Client, garden: Garden
) -> None:
    batch, _airing = an_aired_batch(garden)
    a_jar_look(client, garden, of=batch, kind="batch", aired_min="10")
    photo = a_jar_photo(garden, of=batch, kind="batch", seed=2)
    form = client.get(where(batch, "batch", photo)).context["form"]
    assert (form["path"].value(), form["dilution_factor"].value()) == ("7 cm", "5")
    first = min(part.added_at for part in batch.alkali_parts.all())
    assert float(form["after_min"].value()) == pytest.approx((timezone.now() - first).total_seconds() / 60, abs=5)


@pytest.mark.parametrize(
    ("wrong", "field", "says"),
    [
        ({"water": ""}, "water", "This field is required"),
        ({"water": "790, 590, 100, 100"}, "water", "picture"),
        ({"path": "7 kg"}, "path", "kg"),
        ({"path": "2 m"}, "path", "cannot be"),
        ({"dilution_factor": "0.2"}, "dilution_factor", "greater than or equal to 1"),
        ({"after_min": "-3"}, "after_min", "greater than or equal to 0"),
        ({"seen_at": typed(moment(-50))}, "seen_at", "still to come"),
        ({"seen_at": typed(moment(24 * 40))}, "seen_at", "before Tub 3 was begun"),
    ],
)
def test_a_mistake_is_told_at_its_field_and_keeps_the_typing(
    client: Client, garden: Garden, steeping: Steep, wrong: dict[str, str], field: str, says: str
) -> None:
    photo = a_jar_photo(garden, of=steeping, kind="tub")
    unchanged = no_rows(JarLook, Measured, Reading)
    refused(client, where(steeping, "tub", photo), jar_typed(**wrong), field=field, says=says)
    unchanged()


def test_foam_and_a_look_before_black_go_along(client: Client, garden: Garden, steeping: Steep) -> None:
    look = a_jar_look(client, garden, of=steeping, kind="tub", over_black="20, 480, 80, 80", foam="300, 20, 80, 80")
    assert look.measured.roles == ["jar", "water", "over_black", "foam"]
    assert look.foam_blue_frac == pytest.approx(0.0, abs=0.05)


def test_strangers_and_wrong_keys_get_nothing(
    client: Client, other_garden: Garden, strangers_tub: Steep, garden: Garden, steeping: Steep
) -> None:
    strangers = a_jar_photo(other_garden, of=strangers_tub, kind="tub")
    mine = a_jar_photo(garden, of=steeping, kind="tub", seed=2)
    assert client.get(where(strangers_tub, "tub", strangers)).status_code == 404
    assert client.get(where(steeping, "tub", strangers)).status_code == 404
    assert client.get(where(steeping, "bed", mine)).status_code == 404
    assert client.get(url("jarlooks.draw", kind="tub", key=steeping.pk, photo=NOBODY)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jarlooks.draw", kind="tub", key=NOBODY, photo=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(steeping, "tub", a_jar_photo(garden, of=steeping, kind="tub")), "get", "post")


def test_more_looks_need_no_more_statements(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    photo = a_jar_photo(garden, of=batch, kind="batch")
    client.post(where(batch, "batch", photo), jar_typed())
    flat(client, where(batch, "batch", photo), lambda: a_jar_look(client, garden, of=batch, kind="batch", seed=2))


def test_a_look_later_than_the_photo_is_as_typed(client: Client, garden: Garden, steeping: Steep) -> None:
    when = moment(1)
    look = a_jar_look(client, garden, of=steeping, kind="tub", seen_at=typed(when))
    assert abs(look.seen_at - when) < timedelta(minutes=1)
    assert LiquorLook.objects.count() == 0
