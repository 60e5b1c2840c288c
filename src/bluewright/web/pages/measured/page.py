"""What the pages of measured colours show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from bluewright.charts.colours import hex_of_lab
from bluewright.journal.bridge.measuring import CardFound
from bluewright.journal.models import Measured, Photo
from bluewright.science.photo.record import PhotoAnswer
from bluewright.web.pages.photos.page import Subject
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.photos import thumbs
from bluewright.web.ui.turning import Linked
from bluewright.words.numbers import moment
from bluewright.words.own_text import own_text
from bluewright.words.photo import said

SIDE = 26


@dataclass(frozen=True, slots=True, kw_only=True)
class Chip:
    """A colour to be seen beside its figures."""

    hex: str
    """`#2b427f`: as a screen shows it; yours may differ."""
    name: str
    """`Sample 1: L* 32, a* 0, b* -21`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Colours that were found."""

    chips: tuple[Chip, ...]
    answer: Answered


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredRow:
    """One measurement in a list."""

    key: str
    page: str
    name: str
    when: str
    chips: tuple[Chip, ...]
    thumb: str
    """Address of the small picture."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredIndex:
    """Measurements, the newest first."""

    rows: tuple[MeasuredRow, ...]
    pages: tuple[Linked, ...]
    """Empty where one page holds all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawPage:
    """A photo to draw boxes on."""

    key: str
    of: str
    of_page: str
    trouble: str
    """Why nothing can be measured in it; empty where it can."""
    card: str
    """What is said of a printed card that was found in it; empty where none was."""
    add: str
    """Where the photo can be added again."""
    before: tuple[MeasuredRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToSwatch:
    """A way to keep one of the colours as a swatch."""

    said: str
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredPage:
    """One measurement, as it was found then."""

    key: str
    name: str
    when: str
    by: str
    """Which version of the program found it."""
    card: str
    """The printed card that it was measured against; empty for none."""
    of: str
    of_page: str
    photo: str
    again: str
    """Where its boxes can be drawn anew."""
    picture: str
    found: Found
    boxes: tuple[str, ...]
    swatches: tuple[ToSwatch, ...]
    """One for each sample; of a piece also to keep it as its undyed cloth, and to grade a home test by two."""
    note: str


def found_of(answer: PhotoAnswer) -> Found:
    """The colours of an answer."""
    labs = [sample.lab for sample in answer.samples]
    return Found(chips=chips(labs), answer=answered(said(answer)))


def chips(labs: Iterable[Sequence[float]]) -> tuple[Chip, ...]:
    """A chip for each colour, with its figures."""
    return tuple(
        Chip(
            hex=hex_of_lab(lab),
            name=_("Sample %(number)s: L* %(l)s, a* %(a)s, b* %(b)s")
            % {"number": number, **{k: f"{part:.0f}".replace("-0", "0") for k, part in zip("lab", lab, strict=True)}},
        )
        for number, lab in enumerate(labs, start=1)
    )


def measured_row(row: Measured) -> MeasuredRow:
    """One measurement in a list."""
    return MeasuredRow(
        key=str(row.pk),
        page=reverse("measured.show", kwargs={"key": row.pk}),
        name=row.name or _("no name"),
        when=moment(timezone.localtime(row.measured_at)),
        chips=chips(sample["lab"] for sample in row.answer["samples"]),
        thumb=thumbs([row.photo])[0].picture,
    )


def draw_page(photo: Photo, of: Subject, *, trouble: str, card: str, before: Iterable[Measured]) -> DrawPage:
    """The page to draw on."""
    return DrawPage(
        key=str(photo.pk),
        of=of.said,
        of_page=reverse("photos.show", kwargs={"key": photo.pk}),
        trouble=trouble,
        card=card,
        add=reverse("photos.add", kwargs={"kind": photo.about_kind, "thing": photo.about_id}),
        before=tuple(measured_row(row) for row in before),
    )


def card_said(found: CardFound) -> str:
    """What was found of a printed card."""
    if found.trouble:
        return _("A printed card is seen, but cannot be used: %(why)s.") % {"why": own_text(found.trouble)}
    if found.card is None:
        return ""
    told = {"number": found.card.number}
    if found.card.lying is None:
        return _("Card %(number)s lies in the photo, but is not registered: it is not used.") % told
    return (
        _(
            "Card %(number)s was found: it serves as white, greys and colours. A box lies in its window; draw another "
            "where the sample lies elsewhere."
        )
        % told
    )


def measured_page(row: Measured, of: Subject, answer: PhotoAnswer) -> MeasuredPage:
    """The page of one measurement."""
    photo = reverse("photos.show", kwargs={"key": row.photo.pk})
    return MeasuredPage(
        key=str(row.pk),
        name=row.name or _("Measured colour"),
        when=moment(timezone.localtime(row.measured_at)),
        by=row.program,
        card=str(row.card) if row.card is not None else "",
        of=of.said,
        of_page=of.page,
        photo=photo,
        again=reverse("measured.draw", kwargs={"photo": row.photo.pk}) + f"?like={row.pk}",
        picture=reverse("photos.image", kwargs={"key": row.photo.pk, "size": 1600}),
        found=found_of(answer),
        boxes=tuple(_boxes(row.record)),
        swatches=tuple(_to_swatches(row)),
        note=row.note,
    )


def _to_swatches(row: Measured) -> Iterable[ToSwatch]:
    many = len(row.answer["samples"])
    for number in range(many):
        told = (
            _("Keep sample %(number)s as a swatch") % {"number": number + 1} if many > 1 else _("Keep it as a swatch")
        )
        yield ToSwatch(said=told, to=f"{reverse('swatches.add')}?measured={row.pk}&sample={number}")
    if row.photo.about_kind == "piece":
        yield from _to_piece(row, many)


def _to_piece(row: Measured, many: int) -> Iterable[ToSwatch]:
    keys = {"key": row.photo.about_id}
    for number in range(many):
        told = (
            _("Sample %(number)s is the undyed cloth") % {"number": number + 1}
            if many > 1
            else _("It is the undyed cloth")
        )
        yield ToSwatch(said=told, to=f"{reverse('cloth.change', kwargs=keys)}?measured={row.pk}&sample={number}")
    if many > 1:
        yield ToSwatch(said=_("Grade a home test by it"), to=f"{reverse('cloth.test', kwargs=keys)}?measured={row.pk}")


def _boxes(record: dict[str, Any]) -> Iterable[str]:
    """Where each box was."""
    names = {"white": _("white"), "grey": _("grey"), "black": _("black")}
    for number, box in enumerate(record["samples"], start=1):
        yield _box(_("sample %(number)s") % {"number": number}, box)
    for key, name in names.items():
        if key in record:
            yield _box(name, record[key])


def _box(name: str, box: dict[str, int]) -> str:
    told = {"name": name, "w": box["w_px"], "h": box["h_px"], "x": box["x_px"], "y": box["y_px"]}
    return _("%(name)s: %(w)s by %(h)s points at %(x)s, %(y)s") % told
