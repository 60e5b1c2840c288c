"""Fibres and depths of blue as people call them."""

from __future__ import annotations

from typing import Final

from bluewright.science.dyeing.diffusion import Body
from bluewright.science.dyeing.priors import AfterDip, Finish, Run
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
BODIES: Final[dict[Body, str]] = {
    "yarn": marked("yarn, or woven or knitted of it"),
    "sheet": marked("felt or paper"),
    "ball": marked("a felted ball"),
}
AFTER_DIPS: Final[dict[AfterDip, str]] = {
    "squeezed": marked("wrung, then aired"),
    "rinsed": marked("wrung and rinsed before it blues"),
    "aired": marked("lifted out dripping and aired"),
}
FINISHES: Final[dict[Finish, str]] = {
    "none": marked("nothing"),
    "rinsed": marked("rinsed until clear"),
    "soaped": marked("soaped and rinsed"),
}
RUNS: Final[dict[Run, str]] = {
    "well_run": marked("well run: no more reductant than it needs"),
    "over_reduced": marked("over-reduced: cloth comes out yellow and pales in it"),
}
SCOURS: Final[dict[str, str]] = {
    "soap": marked("warm with soap"),
    "soda_soap": marked("hot with soap and soda"),
    "boiled": marked("boiled with soda"),
    "bought": marked("bought ready to dye"),
    "soaked": marked("soaked in water only"),
}
"""How cloth is cleaned before the vat (common practice, no source)."""
HOME_TESTS: Final[dict[str, str]] = {
    "dry_rub": marked("rubbed ten times, dry"),
    "wet_rub": marked("rubbed ten times, wet"),
    "wash": marked("washed, the cloth itself"),
    "stain": marked("washed, the white cloth beside it"),
    "light": marked("half covered in a window"),
}
