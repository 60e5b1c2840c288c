"""What the pages of jar tests show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from bluewright.charts.colours import hex_of_lab
from bluewright.charts.jar_protocol import jar_test_picture, two_light_picture
from bluewright.charts.jar_series import jar_chart
from bluewright.charts.series_chart import Event
from bluewright.journal.bridge.jar_looks import jar_record, looked_at, same_jar
from bluewright.journal.models import Batch, JarLook, Photo, Steep
from bluewright.science.photo.jar_record import JarAnswer
from bluewright.web.pages.measured.page import Chip
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.photos import Thumb, thumbs
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words.jar_look import dye_index_said, hue_said, said
from bluewright.words.numbers import figure, moment


@dataclass(frozen=True, slots=True, kw_only=True)
class Of:
    """The tub or batch that the jars are of."""

    kind: str
    key: str
    name: str
    page: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """One look at a jar."""

    key: str
    when: str
    said: str
    chips: tuple[Chip, ...]
    photos: tuple[Thumb, ...]
    read: str
    """Which forecast reads it; empty for none."""
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JarPage:
    """The jars of one tub or batch."""

    of: Of
    answer: Answered | None
    """Of the latest jar."""
    looks: tuple[LookRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HowPage:
    """How to do it, on one sheet."""

    title: str
    question: str
    picture: str
    steps: tuple[str, ...]
    mind: tuple[str, ...]
    """What spoils it."""


def of_said(of: Steep | Batch) -> Of:
    """The tub or batch in a few words."""
    kind, noun = ("tub", "tubs") if isinstance(of, Steep) else ("batch", "airing")
    return Of(kind=kind, key=str(of.pk), name=of.name, page=reverse(f"{noun}.show", kwargs={"key": of.pk}))


def jar_page(of: Steep | Batch, looks: Sequence[JarLook]) -> JarPage:
    """The page of a tub's or a batch's jars."""
    about = of_said(of)
    found = answer_of(of, looks)
    return JarPage(
        of=about,
        answer=_answered(of, found, about) if found is not None else None,
        looks=tuple(_row(look) for look in reversed(looks)),
    )


def answer_of(of: Steep | Batch, looks: Sequence[JarLook]) -> JarAnswer | None:
    """What the latest jar says; None where there is none."""
    return looked_at(jar_record(same_jar(looks), name=of.name)) if looks else None


def _answered(of: Steep | Batch, found: JarAnswer, about: Of) -> Answered:
    told = said(found)
    why = main_why(found, address=why_address("jarlooks.why", kind=about.kind, key=of.pk))
    return answered(told, chart=jar_chart(found, answer=told.first, doses=_doses(of)), why=why)


def _doses(of: Steep | Batch) -> tuple[Event, ...]:
    """The parts of alkali that went into a batch, in minutes since the first."""
    if isinstance(of, Steep):
        return ()
    parts = sorted(of.alkali_parts.all(), key=lambda part: part.added_at)
    return tuple(
        Event(at=(part.added_at - parts[0].added_at).total_seconds() / 60, label=part.added_typed) for part in parts
    )


def _row(look: JarLook) -> LookRow:
    found = looked_at(jar_record([look], name="")).looks[0]
    after = _("before the alkali") if look.after_min == 0 else _("%(n)s min after") % {"n": figure(look.after_min)}
    parts = [after, look.get_stood_display(), look.path_typed]
    parts += [_("thinned %(n)s times") % {"n": f"{look.dilution_factor:g}"}] if look.dilution_factor > 1 else []
    dye = found.dye_index_per_cm
    parts += [dye_index_said(dye.p50) if dye is not None else _("too dark to count")]
    parts += [hue_said(found.hue_deg.p50)] if found.hue_deg is not None else []
    names = {"jar": _("Liquor"), "water": _("Water"), "over_black": _("Before black"), "foam": _("Foam")}
    samples = zip(look.measured.roles, look.measured.answer["samples"], strict=True)
    return LookRow(
        key=str(look.pk),
        when=moment(timezone.localtime(look.seen_at)),
        said="; ".join(parts),
        chips=tuple(Chip(hex=hex_of_lab(sample["lab"]), name=names[role]) for role, sample in samples),
        photos=thumbs([look.measured.photo] if look.measured.photo.deleted_at is None else []),
        read=_read(look),
        note=look.note,
    )


def _read(look: JarLook) -> str:
    if look.reading is not None and look.reading.deleted_at is None:
        return _("The strain call reads it.")
    if look.liquor_look is not None and look.liquor_look.deleted_at is None:
        return _("The airing reads it.")
    return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPage:
    """A photo for a look, taken now or there already."""

    of: Of
    there: tuple[Thumb, ...]


def add_page(of: Steep | Batch, photos: Sequence[Photo]) -> AddPage:
    """The page to take or choose a photo."""
    about = of_said(of)
    chosen = (
        Thumb(
            key=thumb.key,
            page=reverse("jarlooks.draw", kwargs={"kind": about.kind, "key": of.pk, "photo": photo.pk}),
            picture=thumb.picture,
            said=thumb.said,
        )
        for photo, thumb in zip(photos, thumbs(photos), strict=True)
    )
    return AddPage(of=about, there=tuple(chosen))


def how_jar_page() -> HowPage:
    """How to do the jar test."""
    return HowPage(
        title=_("Jar test by photo"),
        question=_("Is there blue in the liquor, and is more of it forming?"),
        picture=jar_test_picture(),
        steps=(
            _("Take two equal clear jars. Fill one with strained liquor, one with water, to the same height."),
            _("Stand them side by side before white paper, in daylight by a window or in open shade."),
            _("Hold the phone level with them. No flash, no lamp, no portrait or night mode. Take photo 0."),
            _("Stir in the alkali. Close the jar, shake it for a minute, open it: that is the air it needs."),
            _("Let it stand until the bubbles are gone, or run it through a coffee filter. Take a photo."),
            _("Again after 2, 5, 10, 20 and 30 minutes, shaking in between; each time let it stand first."),
            _("In each photo put a box on the liquor, one on the water, one on the paper."),
        ),
        mind=(
            _("Hardly any light through it? One part of liquor to four of water, and say so; or a narrower jar."),
            _("Keep to the same jar: its width counts."),
            _("Alkali burns skin and eyes: gloves and glasses, and what the label says."),
        ),
    )


def how_light_page() -> HowPage:
    """How to do the two-light test."""
    return HowPage(
        title=_("Two-light test"),
        question=_("Is it blue dye, or only haze?"),
        picture=two_light_picture(),
        steps=(
            _("Stand the jar of liquor and the jar of water as for the jar test: white paper behind."),
            _("Put a second jar of the same liquor before black cloth or card, with light from one side."),
            _("Take both in one photo, or the second a minute later in the same light."),
            _("Put a box on the liquor before white, on the water, and on the liquor before black."),
        ),
        mind=(
            _("Blue before black and brown before white: haze. Any fine haze does that, with no dye in it."),
            _("Blue dye takes red out of the light that comes through: only the dye index shows that."),
            _("No sun straight on the glass: its shine is white, whatever is in the jar."),
        ),
    )
