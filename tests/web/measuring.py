"""Photos of known colour in the journal, and what is typed to measure in them."""

from __future__ import annotations

from typing import Any

from django.test import Client
from django.utils import timezone

from bluewright.journal.actions.measuring import add_jar_look, keep_measured
from bluewright.journal.actions.photos import add_photos
from bluewright.journal.bridge.measuring import measured_in
from bluewright.journal.models import Garden, JarLook, Kept, Measured, Photo, Steep
from bluewright.journal.photos.preparing import prepared
from bluewright.science.base.records import dump
from bluewright.science.photo.record import Box, PhotoRecord
from tests.known_photos import CLOTH, GREEN_LIQUOR, LIQUOR, WATER, WHITE, WHITE_LAB, a_cloth, text, two_jars
from tests.web.checks import url


def kept_photo(garden: Garden, data: bytes, *, of: Kept, kind: str) -> Photo:
    ready = prepared(data, now=timezone.localtime())
    return add_photos([ready], garden=garden, kind=kind, key=of.pk, by=None)[0]


def a_cloth_photo(garden: Garden, *, of: Kept, kind: str = "tub", seed: int = 1) -> Photo:
    return kept_photo(garden, a_cloth(seed), of=of, kind=kind)


def cloth_typed(**other: Any) -> dict[str, Any]:
    """A box on the cloth and one on the paper, whose colour was measured."""
    lab = " ".join(f"{part:g}" for part in WHITE_LAB)
    plain = {"samples": text(CLOTH), "white": text(WHITE), "white_lab": lab, "light": "daylight", "name": "First dip"}
    return plain | other


def measured_cloth(client: Client, garden: Garden, *, of: Kept, kind: str = "tub", seed: int = 1) -> Measured:
    photo = a_cloth_photo(garden, of=of, kind=kind, seed=seed)
    client.post(url("measured.draw", photo=photo.pk), cloth_typed())
    return Measured.objects.get(photo=photo)


def a_jar_photo(
    garden: Garden, *, of: Kept, kind: str, light: tuple[float, float, float] = GREEN_LIQUOR, seed: int = 1
) -> Photo:
    return kept_photo(garden, two_jars(light, seed), of=of, kind=kind)


def jar_typed(**other: Any) -> dict[str, Any]:
    """Boxes on both jars of 7 cm, one part of liquor in five, twenty minutes after the alkali."""
    now = timezone.localtime().strftime("%Y-%m-%dT%H:%M")
    plain = {
        "jar": text(LIQUOR), "water": text(WATER), "after_min": "20", "stood": "settled", "path": "7 cm",
        "dilution_factor": "5", "to_forecast": "on", "seen_at": now,
    }  # fmt: skip
    return plain | other


def a_jar_look(
    client: Client, garden: Garden, *, of: Kept, kind: str, seed: int = 1,
    light: tuple[float, float, float] = GREEN_LIQUOR, **typed: Any,
) -> JarLook:  # fmt: skip
    photo = a_jar_photo(garden, of=of, kind=kind, light=light, seed=seed)
    client.post(url("jarlooks.draw", kind=kind, key=of.pk, photo=photo.pk), jar_typed(**typed))
    return JarLook.objects.get(measured__photo=photo)


def written(garden: Garden, *, of: Steep) -> None:
    """A measured cloth and a look at a jar of a tub, written without a page."""
    a_written_cloth(garden, of=of)
    jars = a_jar_photo(garden, of=of, kind="tub")
    record = PhotoRecord(samples=(Box(**_sides(LIQUOR)), Box(**_sides(WATER))))
    look = JarLook(
        measured=_write(jars, record, roles=["jar", "water"]), steep=of, seen_at=timezone.now(), after_min=20.0,
        path_cm=7.0, path_typed="7 cm", dilution_factor=5.0,
    )  # fmt: skip
    add_jar_look(look, read_as=None, by=None)


def a_written_cloth(garden: Garden, **of: Any) -> Measured:
    """A measured cloth, written without a page; `of` is what the photo is of, as `a_cloth_photo` takes it."""
    record = PhotoRecord(samples=(Box(**_sides(CLOTH)),), white=Box(**_sides(WHITE)))
    return _write(a_cloth_photo(garden, **of), record, roles=["sample"])


def _sides(box: tuple[int, int, int, int]) -> dict[str, int]:
    return dict(zip(("x_px", "y_px", "w_px", "h_px"), box, strict=True))


def _write(photo: Photo, record: PhotoRecord, *, roles: list[str]) -> Measured:
    answer = dump(measured_in(photo, record).answer)
    row = Measured(
        photo=photo, name="First dip", measured_at=timezone.now(), roles=roles, record=answer.pop("inputs"),
        answer=answer, program="0.1.0",
    )  # fmt: skip
    return keep_measured(row, by=None)
