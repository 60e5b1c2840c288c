"""Measured photos and looks at jars: decoded once, kept, and carried with a garden."""

import json
from pathlib import Path
from typing import Any

import pytest
from django.test import Client

from bluewright.journal import transfer
from bluewright.journal.models import Garden, JarLook, Measured, Photo, Steep
from bluewright.journal.photos import measuring
from bluewright.pictures.decoding import picture
from bluewright.science.base.errors import InputError
from bluewright.science.photo.foam import blue_frac
from bluewright.science.photo.record import Box
from tests.journal.test_transfer import brought, out
from tests.known_photos import a_known_photo, light_of
from tests.web.measuring import a_cloth_photo, a_jar_look, measured_cloth

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def own_home(settings: Any, tmp_path: Path) -> None:
    settings.HOME = tmp_path


def test_a_picture_is_decoded_once_while_its_boxes_move(
    garden: Garden, steeping: Steep, monkeypatch: pytest.MonkeyPatch
) -> None:
    photo, decoded = a_cloth_photo(garden, of=steeping), []
    plain = measuring.picture
    monkeypatch.setattr(measuring, "picture", lambda data: decoded.append(len(data)) or plain(data))
    assert measuring.picture_of(photo) is measuring.picture_of(photo)
    assert len(decoded) == 1
    others = [a_cloth_photo(garden, of=steeping, seed=seed) for seed in range(2, 2 + measuring.MOST_KEPT)]
    for other in others:
        measuring.picture_of(other)
    measuring.picture_of(photo)
    assert len(decoded) == 2 + measuring.MOST_KEPT, "the oldest was let go"


def test_without_its_original_a_photo_is_not_measured(garden: Garden, steeping: Steep) -> None:
    photo = a_cloth_photo(garden, of=steeping)
    photo.original_ending = ""
    with pytest.raises(InputError, match="only a small copy"):
        measuring.picture_of(photo)


def test_what_was_measured_goes_along_with_its_photo_and_what_a_forecast_reads(
    client: Client, garden: Garden, steeping: Steep
) -> None:
    measured_cloth(client, garden, of=steeping)
    a_jar_look(client, garden, of=steeping, kind="tub")
    before = out(garden)
    assert (len(before["measured"]), len(before["jar_looks"]), len(before["photos"])) == (2, 1, 2)
    for model in (JarLook, Measured, Photo):
        model.everything.all().delete()
    for kind in reversed(list(transfer.KINDS.values())):
        getattr(kind[0], "everything", kind[0].objects).all().delete()
    Garden.everything.all().delete()
    again = brought(before)
    assert {k: v for k, v in out(again).items() if k != "photos"} == {k: v for k, v in before.items() if k != "photos"}
    assert JarLook.objects.get().reading is not None


def test_without_photos_the_rest_of_the_garden_goes_alone(client: Client, garden: Garden, steeping: Steep) -> None:
    measured_cloth(client, garden, of=steeping)
    whole = json.loads("".join(transfer.parts(garden, photos=False)))
    assert whole["measured"] == whole["jar_looks"] == []


def test_a_measurement_of_no_photo_of_the_file_is_refused(client: Client, garden: Garden, steeping: Steep) -> None:
    measured_cloth(client, garden, of=steeping)
    whole = out(garden)
    whole["photos"] = []
    Measured.everything.all().delete()
    Photo.everything.all().delete()
    for kind in reversed(list(transfer.KINDS.values())):
        getattr(kind[0], "everything", kind[0].objects).all().delete()
    Garden.everything.all().delete()
    with pytest.raises(InputError, match=r"measured\[0\]"):
        brought(whole)
    assert Garden.everything.count() == 0


def test_the_share_of_blue_foam_is_that_of_its_points() -> None:
    """Own hand: a third of the box blue (L* 60, a* -5, b* -25), the rest a pale straw."""
    blue, straw = light_of((60.0, -5.0, -25.0)), light_of((85.0, -2.0, 18.0))
    found = picture(a_known_photo(((0, 0, 300, 300), straw), ((0, 0, 100, 300), blue)))
    assert blue_frac(found, Box(x_px=0, y_px=0, w_px=300, h_px=300)) == pytest.approx(1 / 3, abs=0.01)
