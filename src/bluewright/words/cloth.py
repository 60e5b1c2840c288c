"""Fibres and depths of blue as people call them."""

from __future__ import annotations

from typing import Final

from bluewright.science.media.cloth import Basis, Depth, Fibre
from bluewright.words.language import marked

FIBRES: Final[dict[Fibre, str]] = {
    "wool": marked("wool"),
    "silk": marked("silk"),
    "cotton": marked("cotton"),
    "linen": marked("linen"),
    "other_cellulose": marked("viscose and the like"),
}
DEPTHS: Final[dict[Depth, str]] = {
    "pale_sky": marked("pale sky"),
    "light": marked("light blue"),
    "medium": marked("medium blue"),
    "deep": marked("deep blue"),
    "navy": marked("navy"),
}
BASES: Final[dict[Basis, str]] = {
    "conditioned": marked("weighed as it hangs in a room"),
    "dry": marked("weighed bone dry"),
}
