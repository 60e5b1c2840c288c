"""The printed card in words: its patches, and what stands on it."""

from __future__ import annotations

from datetime import date
from typing import Final

from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import day

PATCH_NAMES: Final = {
    "paper": marked("bare paper"), "grey-1": marked("palest grey"), "grey-2": marked("pale grey"),
    "grey-3": marked("grey"), "grey-4": marked("dark grey"), "black": marked("black"),
    "blue-1": marked("palest blue"), "blue-2": marked("pale blue"), "blue-3": marked("blue"),
    "blue-4": marked("deep blue"), "blue-5": marked("deepest blue"), "teal": marked("blue-green"),
    "yellow-green": marked("yellow-green"), "olive": marked("olive"), "amber": marked("amber"),
    "brown": marked("brown"), "cream": marked("cream"), "purple": marked("purple"),
}  # fmt: skip


def name(number: int) -> str:
    """`Card 3`."""
    return _("Card %(number)d") % {"number": number}


def lay_here() -> str:
    """What the window is for."""
    return _("Lay the sample here")


def how_to_print(*, cut: bool) -> tuple[str, ...]:
    """How the card is printed, kept, registered and used: the words that the sample will cover."""
    return (
        _("Dry and flat, folded until nothing shines through. It covers these words."),
        _("Print at 100 %, matte, on heavy paper without brightener. Dry for a day.")
        + (" " + _("Cut along the dashed line.") if cut else ""),
        _("Keep it dark, dry, flat and clean."),
        _("Register it once with three photos or more in open shade; again each year, or if it fades."),
        _("All four corner marks in each photo; no shine, no shadow's edge."),
    )


def check_line(length_mm: float) -> str:
    """What a ruler should find."""
    return _("This line is %(mm).0f mm long if the printer did not shrink it.") % {"mm": length_mm}


def own_swatch() -> str:
    """What the slot is for."""
    return _("Your own kept swatch: glue it here, and write what it is and its date beside it.")


def printed(when: date, *, layout: int) -> str:
    """The date of printing, and by which layout the card is read."""
    return _("Bluewright, printed %(day)s, layout %(layout)d") % {"day": day(when), "layout": layout}
