"""What eye, nose and hand notice, as people read it: the names of the signs, and what their levels look like."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.air.endpoint import SIGNS as AIRED
from bluewright.science.steep.signs import SIGNS, SignName
from bluewright.science.vat import signs as in_vat
from bluewright.words.language import gettext as _
from bluewright.words.language import marked

WorkSign = Literal["foam", "liquor", "blue_in_decant"]
"""What is looked at after straining."""
VatSign = in_vat.SignName
"""What is looked at in a vat."""
AnySign = SignName | WorkSign | VatSign
NAMES: Final[dict[AnySign, str]] = {
    "bubbles": marked("bubbles"),
    "scum": marked("scum"),
    "blue_cast": marked("blue cast"),
    "limpness": marked("limpness"),
    "darkness": marked("darkness"),
    "smell": marked("smell"),
    "alkali_green": marked("green with alkali"),
    "foam": marked("foam"),
    "liquor": marked("liquor, or a drop of it on paper"),
    "blue_in_decant": marked("what was decanted, in a clear glass"),
    "liquor_look": marked("under the skin"),
    "film": marked("on top of the vat"),
    "grains_seen": marked("a drop on glass"),
}
LEVELS: Final[dict[AnySign, tuple[str, ...]]] = {
    **{name: sign.levels for name, sign in SIGNS.items()},
    **{name: sign.levels for name, sign in in_vat.SIGNS.items()},
    "foam": AIRED["foam"].levels,
    "liquor": AIRED["liquor"].levels,
    "blue_in_decant": (
        marked("no blue: straw or brown"), marked("a breath of blue"), marked("plainly blue"), marked("dark blue"),
    ),
}  # fmt: skip
"""What each level looks like, from 0 on."""


def sign_said(sign: AnySign) -> str:
    """A sign by its name: `blue cast`."""
    return _(NAMES[sign])


def level_said(sign: AnySign, level: int) -> str:
    """What a level of it looks like: `a hint at the edge`."""
    return _(LEVELS[sign][level])


def levels_said(sign: AnySign) -> tuple[str, ...]:
    """What each of its levels looks like, from 0 on."""
    return tuple(_(level) for level in LEVELS[sign])


def seen_said(sign: AnySign, level: int) -> str:
    """A sign with its level: `blue cast: a hint at the edge`."""
    return _("%(sign)s: %(level)s") % {"sign": sign_said(sign), "level": level_said(sign, level)}
