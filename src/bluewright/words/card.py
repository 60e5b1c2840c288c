"""The printed card in words: its patches, and what stands on it."""

from __future__ import annotations

from datetime import date
from typing import Final

from bluewright.science.photo.card_record import RegisteredPatch, RegisteredPhoto, Registration
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import day, figure, sentence

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


def printing_steps() -> tuple[str, ...]:
    """What to do at the printer, before and after."""
    return (
        _("Heavy matte paper without brightener: beside plain copy paper it looks a little cream, not bluish."),
        _("Print the PDF at 100 % (actual size), in colour, best quality; not through an app that mends pictures."),
        _("Let it dry for a day, cut it, and keep it dark, flat and dry."),
        _("Register it: three photos or more in open shade. Then it is found by itself in later photos."),
        _("Register it again after a year, or when photos say that it has changed."),
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


LEFT_OUT: Final = {
    "no_card": marked("No card is seen in it. Take the whole card into the picture, nothing on its corners."),
    "not_whole": marked("The card cannot be read in it."),
    "other_card": marked("It shows a card of another number."),
    "overexposed": marked("Its paper is overexposed. Touch the white on the screen, or expose one step less."),
    "too_dark": marked("Its paper is too dark. Expose more: nearly white, not quite."),
    "uneven": marked("Light is uneven on it: a shadow's edge, shine, or a window close by. Go into open shade."),
    "not_daylight": marked("It does not look like daylight: its paper is coloured, the flash fired, or it is dim."),
    "no_plain_photo": marked("It is a copy, or the camera changed it (portrait, night, a filter)."),
    "same": marked("It is the same photo as one before it."),
    "differs": marked("Its colours are not those of the others."),
    "no_photo": marked("It cannot be opened."),
}
"""Why a photo was left out of a registration."""


def patch_name(name: str) -> str:
    """A patch in words: `pale blue`."""
    return _(PATCH_NAMES[name])


def photo_told(photo: RegisteredPhoto) -> str:
    """What became of one photo: why it was left out, or how far it is from the others."""
    if photo.left_out is not None:
        return " ".join(filter(None, (_(LEFT_OUT[photo.left_out]), _detail(photo))))
    return _("Counts: %(off)s from the middle of all (CIEDE2000).") % {"off": figure(photo.off_de00 or 0.0)}


def _detail(photo: RegisteredPhoto) -> str:
    """What exactly was wrong with a photo that could not be read, or how far one is off that differs."""
    if photo.left_out == "differs" and photo.off_de00 is not None:
        return _("They are %(off)s off (CIEDE2000).") % {"off": figure(photo.off_de00)}
    return sentence(f"{photo.said}.") if photo.said and photo.left_out in {"not_whole", "no_photo"} else ""


def registration_told(found: Registration) -> list[str]:
    """Photo by photo what became of it, then what the card is worth."""
    lines = [f"{one.name}: {photo_told(one)}" for one in found.photos]
    if found.card is not None and found.spread_de00 is not None:
        told = {"card": name(found.card.number), "spread": figure(found.spread_de00)}
        lines.append(_("%(card)s registered; one photo is %(spread)s from the mean (CIEDE2000).") % told)
    return lines + [caution.text for caution in found.cautions]


def drift_told(mean_de00: float) -> str:
    """How a card came out in one photo, for a pointer or a screen reader."""
    return _("%(off)s off (CIEDE2000), as a mean over its patches") % {"off": figure(mean_de00)}


def patch_told(patch: RegisteredPatch) -> str:
    """The colour of a patch in figures, with its spread from photo to photo."""
    lightness, a, b = patch.lab
    sd = float(sum(one * one for one in patch.lab_sd)) ** 0.5
    return _("L* %(l).1f, a* %(a).1f, b* %(b).1f, give or take %(sd).1f") % {"l": lightness, "a": a, "b": b, "sd": sd}
