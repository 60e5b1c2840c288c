"""The bytes of a photo to the picture in which colours are measured."""

from __future__ import annotations

import numpy as np
from PIL import Image

from bluewright.pictures.camera import facts
from bluewright.pictures.opening import opened, refused
from bluewright.pictures.profile import in_space
from bluewright.science.photo.picture import Picture

AS_TAKEN = "send the photo as the camera wrote it"


def picture(data: bytes) -> Picture:
    """The photo in these bytes: all its points, upright, in a known colour space, with what bears on trust.

    Raises InputError for what is no photo, cannot be decoded, moves or is too large (as `opened` does), and for what no
    camera writes: without colour, in the inks of a print, with few colours, or see-through.
    """
    with opened(data, in_full=True) as photo:
        plain = _plain(photo.picture)
        coloured, space, told = in_space(plain)
        found = facts(photo, told=told)
        upright = coloured if photo.turn is None else coloured.transpose(photo.turn)
        return Picture(code=np.asarray(upright), space=space, facts=found)


def _plain(photo: Image.Image) -> Image.Image:
    """The picture in RGB, with its notes on colour."""
    mode = photo.mode
    if mode in {"1", "L", "LA", "La", "F"} or mode.startswith("I"):
        raise refused("the picture has no colour", "take the photo in colour")
    if mode == "CMYK":
        raise refused("the picture is in the inks of a print (CMYK)", AS_TAKEN)
    if mode in {"P", "PA"}:
        raise refused("the picture has no more than 256 colours", AS_TAKEN)
    if mode in {"RGBA", "RGBa"} or "transparency" in photo.info:
        whole = photo.convert("RGBA")
        if whole.getchannel("A").getextrema() != (255, 255):
            raise refused("the picture is see-through in places", AS_TAKEN)
        return whole.convert("RGB")
    return photo if mode == "RGB" else photo.convert("RGB")
