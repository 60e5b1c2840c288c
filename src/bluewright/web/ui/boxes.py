"""Boxes on a photo in a form: fields of numbers that a script lets one draw with thumb, mouse or keys."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.models import Photo
from bluewright.science.base.errors import InputError
from bluewright.science.photo.record import MOST_BOXES, Box

SPLIT: Final = re.compile(r"[,;\s]+")
MOST_TYPED: Final = 2000


class BoxesField(forms.CharField):
    """One box a line: left, top, width and height in points of the upright photo; cleaned to a tuple of boxes.

    `short` is what it is called on the photo.
    """

    def __init__(self, *, short: Any, many: bool = False, **options: Any) -> None:
        self.many = many
        widget = forms.Textarea(attrs={"rows": 3}) if many else forms.TextInput()
        super().__init__(max_length=MOST_TYPED, widget=widget, **options)
        self.widget.attrs |= {"autocomplete": "off", "data-box": "many" if many else "one", "data-label": short}

    def clean(self, value: Any) -> tuple[Box, ...]:
        """Read the numbers; a mistake says which line, and what would be right."""
        text = super().clean(value)
        lines = [line.strip() for line in text.splitlines() if line.strip()]
        most = MOST_BOXES if self.many else 1
        if len(lines) > most:
            raise ValidationError(_("Give at most %(most)s.") % {"most": most})
        return tuple(_box(line) for line in lines)


def _box(line: str) -> Box:
    parts = [part for part in SPLIT.split(line) if part]
    try:
        left, top, wide, high = (int(part) for part in parts)
        return Box(x_px=left, y_px=top, w_px=wide, h_px=high)
    except InputError as error:
        raise ValidationError(f"{error.what}; {error.right}.") from None
    except ValueError:
        raise ValidationError(
            _("‘%(line)s’ is no box: write left, top, width and height in points, like 120, 300, 200, 160.")
            % {"line": line[:40]}
        ) from None


def box_text(box: Box | None) -> str:
    """A box as it is typed; nothing where there is none."""
    return "" if box is None else f"{box.x_px}, {box.y_px}, {box.w_px}, {box.h_px}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What the page needs to let boxes be drawn on a photo."""

    picture: str
    """Address of the picture to draw on."""
    said: str
    width_px: int
    """Of the upright original: what boxes are counted in."""
    height_px: int
    live: str
    """Where boxes are sent for an answer while they are drawn."""


def drawn(photo: Photo, *, live: str, said: str) -> Drawn:
    """The photo to draw on."""
    return Drawn(
        picture=reverse("photos.image", kwargs={"key": photo.pk, "size": 1600}),
        said=said,
        width_px=photo.width_px,
        height_px=photo.height_px,
        live=live,
    )
