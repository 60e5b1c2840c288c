"""What a photo's page shows, and what a photo is of, in words and as an address."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from django.urls import NoReverseMatch, reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from bluewright.journal.models import Kept, Photo, Picking
from bluewright.journal.photos.kinds import KINDS
from bluewright.words.numbers import moment


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """What a photo is of."""

    said: str
    page: str
    """Address of the page where it is found."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoPage:
    """One photo."""

    key: str
    of: str
    """What it is of."""
    of_page: str
    when: str
    size: str
    """Of the original, upright, and of its file: `4032 by 3024 points, 3.1 MB`."""
    picture: str
    """Address of the picture to show."""
    said: str
    """What it shows, for those who do not see it."""


def subject(kind: str, row: Kept) -> Subject:
    """What a row is called, and where it is found: on a page of its own or of its tub, in a list, or nowhere yet."""
    known = KINDS[kind]
    whole = getattr(row, known.part_of) if known.part_of else row
    said = _look(row, whole) if known.part_of else _name(row)
    for name, keys in ((f"{known.noun}.show", {"key": whole.pk}), (f"{known.noun}.index", {})):
        with suppress(NoReverseMatch):
            return Subject(said=said, page=reverse(name, kwargs=keys))
    return Subject(said=said, page=reverse("today"))


def photo_page(photo: Photo, of: Subject) -> PhotoPage:
    """The page of a photo."""
    when = moment(timezone.localtime(photo.taken_at))
    size = _("%(wide)d by %(high)d points") % {"wide": photo.width_px, "high": photo.height_px}
    return PhotoPage(
        key=str(photo.pk),
        of=of.said,
        of_page=of.page,
        when=when,
        size=size + (f", {photo.original_bytes / 1e6:.1f} MB" if photo.original_bytes else ""),
        picture=reverse("photos.image", kwargs={"key": photo.pk, "size": 1600}),
        said=_("Photo of %(what)s, taken %(when)s") % {"what": of.said, "when": when},
    )


def _name(row: Kept) -> str:
    """A row in a few words."""
    if isinstance(row, Picking):
        when = moment(timezone.localtime(row.picked_at))
        return _("%(leaf)s picked %(when)s") % {"leaf": row.leaf_typed, "when": when}
    return str(row)


def _look(row: Any, whole: Kept) -> str:
    """A look at something, by the garden's clock."""
    when = moment(timezone.localtime(row.taken_at))
    return _("%(what)s, the look of %(when)s") % {"what": whole, "when": when}
