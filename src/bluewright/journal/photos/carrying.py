"""Photos in a garden's file: a row as any other, and the picture to show as text (base64).

The original and the small picture stay behind: the one would make the file ten times as large, the other is made
anew. A photo of something that is deleted stays behind too.
"""

from __future__ import annotations

import base64
import binascii
from collections.abc import Collection, Iterator, Mapping
from contextlib import suppress
from typing import Any, Final

from PIL import Image

from bluewright.journal.models import Garden, Photo
from bluewright.journal.photos import store
from bluewright.journal.photos.kinds import KINDS
from bluewright.journal.photos.preparing import Prepared, thumb_of
from bluewright.journal.photos.stripping import stripped
from bluewright.pictures.opening import SHOWN_PX, opened
from bluewright.science.base.errors import InputError

OWN: Final = frozenset({"name", "original_ending", "original_bytes", "shown_bytes", "thumb_bytes"})
"""Columns that tell of the files of one installation."""
PICTURE: Final = "picture"


def along(garden: Garden, there: Mapping[Any, Collection[Any]]) -> list[Photo]:
    """The photos of a garden that are of something that goes along: `there` holds the keys of each model's rows.

    One whose picture is gone stays behind.
    """
    known = {name: there.get(kind.model, ()) for name, kind in KINDS.items()}
    photos = Photo.objects.filter(garden=garden).order_by("pk")
    of_what_goes = (photo for photo in photos if photo.about_id in known.get(photo.about_kind, ()))
    return [photo for photo in of_what_goes if store.path(photo, "1600").exists()]


def carried(photos: list[Photo], plain: dict[Any, dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """For each photo its plain row with the picture; one whose file is gone is left out."""
    for photo in photos:
        with suppress(FileNotFoundError):
            picture = base64.b64encode(store.path(photo, "1600").read_bytes()).decode("ascii")
            yield {k: v for k, v in plain[photo.pk].items() if k not in OWN} | {PICTURE: picture}


def bring_picture(photo: Photo, text: Any, *, into: Garden, where: str) -> None:
    """Write the files of a photo that came in a garden's file.

    Raises InputError if it is of nothing in its garden, or its picture is not such a picture, OSError if the disk
    refuses.
    """
    kind = KINDS.get(photo.about_kind)
    if photo.garden_id != into.pk or kind is None or kind.row(photo.about_id, of=into) is None:
        raise InputError(where=f"{where}.about_id", what="it is of nothing in this garden", right="mend the file")
    try:
        data = base64.b64decode(text, validate=True)
    except (TypeError, ValueError, binascii.Error):
        raise InputError(where=f"{where}.{PICTURE}", what="it is no picture", right="mend the file") from None
    try:
        with opened(data, in_full=True) as found:
            if found.format != "JPEG" or max(found.width_px, found.height_px) > SHOWN_PX:
                raise InputError(where="", what="it is no JPEG of at most 1600 points", right="mend the file")
            ready = _ready(photo, stripped(data, "JPEG", b""), found.picture)
    except InputError as error:
        raise InputError(where=f"{where}.{PICTURE}", what=error.what, right=error.right) from None
    store.write(photo, ready)


def _ready(photo: Photo, shown: bytes, picture: Image.Image) -> Prepared:
    return Prepared(
        shown=shown,
        thumb=thumb_of(picture.convert("RGB")),
        original=b"",
        ending="",
        sha256=photo.sha256,
        width_px=photo.width_px,
        height_px=photo.height_px,
        taken_at=photo.taken_at,
    )


def parted(plain: Any) -> tuple[Any, Any]:
    """A photo of a file as its row and its picture; what tells of another installation's files is let go."""
    if not isinstance(plain, dict):
        return plain, None
    return {k: v for k, v in plain.items() if k not in OWN and k != PICTURE}, plain.get(PICTURE)
