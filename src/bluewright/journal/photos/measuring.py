"""The original pixels of a photo as a picture to measure in; the last few are kept decoded, for boxes move often."""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock
from typing import Final

from bluewright.journal.models import Photo
from bluewright.journal.photos import store
from bluewright.pictures.decoding import picture
from bluewright.science.base.errors import InputError
from bluewright.science.photo.picture import Picture

MOST_KEPT: Final = 3
"""Pictures kept decoded: of twelve million points each takes 36 MB."""

_kept: OrderedDict[str, Picture] = OrderedDict()
_one_at_a_time = Lock()


def picture_of(photo: Photo) -> Picture:
    """The picture that a photo's original holds.

    Raises InputError where the original is not kept here, or cannot be measured in (as `pictures.decoding` says).
    """
    with _one_at_a_time:
        if photo.name in _kept:
            _kept.move_to_end(photo.name)
            return _kept[photo.name]
        found = picture(_original(photo))
        _kept[photo.name] = found
        if len(_kept) > MOST_KEPT:
            _kept.popitem(last=False)
        return found


def _original(photo: Photo) -> bytes:
    try:
        if photo.original_ending:
            return store.path(photo, "original").read_bytes()
    except FileNotFoundError:
        pass
    raise InputError(
        where="photo",
        what="only a small copy of this photo is kept here, and colours cannot be measured in it",
        right="send the photo again as the camera wrote it",
    )
